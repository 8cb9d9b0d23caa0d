package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
)

// load reads and solves a design file. Files that it names lie beside it. m is for
// those who load it again and again; nil does.
func load(name string, m *job.Memory) (*job.Job, []byte, error) {
	src, err := readDesign(name)
	if err != nil {
		return nil, nil, err
	}
	d, err := design.Parse(name, src)
	if err != nil {
		return nil, nil, err
	}
	var errs design.Errors
	errs.Add(check.Verify(d))
	dir := filepath.Dir(name)
	j, err := m.Solve(d, func(file string) (io.ReadCloser, error) {
		if !filepath.IsLocal(file) {
			return nil, fmt.Errorf("%q does not lie beside the design file", file)
		}
		return os.Open(filepath.Join(dir, file))
	})
	errs.Add(err)
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	return j, src, nil
}

// readDesign reads a design file whole, no more than the parser takes: a file
// one byte over the limit is left to the parser to refuse.
func readDesign(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, failed(err)
	}
	defer f.Close()
	if st, err := f.Stat(); err == nil && st.IsDir() {
		return nil, failed(fmt.Errorf("%s is a folder, not a design file", name))
	}
	src, err := io.ReadAll(io.LimitReader(f, design.MaxFile+1))
	if err != nil {
		return nil, failed(err)
	}
	return src, nil
}
