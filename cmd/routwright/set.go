package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path"
	"path/filepath"
	"runtime"
	"sort"
	"strings"
	"sync"

	"routwright/templates/record"
)

// manifestName is the file by which a folder is known as a set of ours.
const manifestName = "manifest.json"

// manifest lists every file of a set.
type manifest struct {
	Program string            `json:"program"`
	Version string            `json:"version"`
	Design  string            `json:"design_sha256"`
	Files   map[string]string `json:"files_sha256"`
}

// set is the files of one run, by slash-separated name. Any number of
// goroutines may add to it.
type set struct {
	design []byte

	mu    sync.Mutex
	files map[string][]byte
	made  *record.Record // what it is made of; nil until it is filled
}

// newSet returns an empty set for a design file.
func newSet(design []byte) *set { return &set{design: design, files: map[string][]byte{}} }

// add takes a file into the set. Two files of one name are a fault of the
// program, not of the design.
func (s *set) add(name string, data []byte) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, twice := s.files[name]; twice {
		return fmt.Errorf("two files of the set have the name %s", name)
	}
	s.files[name] = data
	return nil
}

// file returns a file that was added; nil without it.
func (s *set) file(name string) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.files[name]
}

func hash(b []byte) string {
	h := sha256.Sum256(b)
	return hex.EncodeToString(h[:])
}

// write puts the set in place of dir, as a whole: it is written to a temporary
// folder beside it and swapped in, so that a failure or a kill leaves the old
// set untouched. A folder that holds files which no manifest of ours lists is
// refused.
func (s *set) write(dir string) error {
	if err := refuseForeign(dir); err != nil {
		return err
	}
	if err := s.keepsRecord(dir); err != nil {
		return err
	}
	m := manifest{Program: "routwright", Version: version, Design: hash(s.design), Files: map[string]string{}}
	for name, data := range s.files {
		m.Files[name] = hash(data)
	}
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	parent := filepath.Dir(filepath.Clean(dir))
	if err := os.MkdirAll(parent, 0o777); err != nil {
		return failed(err)
	}
	tmp, err := os.MkdirTemp(parent, ".routwright-new-")
	if err != nil {
		return failed(fmt.Errorf("cannot write beside %s: %w", dir, err))
	}
	defer os.RemoveAll(tmp)
	// MkdirTemp gives 0700; the set should follow the builder's umask as any
	// folder does.
	fresh := filepath.Join(tmp, "set")
	if err := os.Mkdir(fresh, 0o777); err != nil {
		return failed(err)
	}
	// From here on a Ctrl-C is heeded between two files, so that the temporary
	// folder does not stay behind.
	ctx, restore := signal.NotifyContext(context.Background(), os.Interrupt)
	defer restore()
	for name, data := range s.files {
		if ctx.Err() != nil {
			return failed(fmt.Errorf("interrupted: %s is as it was", dir))
		}
		if err := writeFile(filepath.Join(fresh, filepath.FromSlash(name)), data); err != nil {
			return failed(err)
		}
	}
	if err := writeFile(filepath.Join(fresh, manifestName), append(text, '\n')); err != nil {
		return failed(err)
	}
	return failed(swap(fresh, filepath.Join(tmp, "old"), dir))
}

func writeFile(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	return os.WriteFile(name, data, 0o666)
}

// swap puts fresh in the place of dir, in one step where the system can. Else
// what was there is kept at old until fresh stands.
func swap(fresh, old, dir string) error {
	if _, err := os.Lstat(dir); err == nil && exchange(fresh, dir) {
		return nil // the old set now lies at fresh, and goes with the temporary folder
	}
	err := os.Rename(dir, old)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	had := err == nil
	if err := os.Rename(fresh, dir); err != nil {
		if had {
			if back := os.Rename(old, dir); back != nil {
				return fmt.Errorf("%w; the old set could not be put back and is lost: %v", err, back)
			}
		}
		return err
	}
	return nil
}

// refuseForeign returns an error when dir is no folder, or holds files that its
// manifest does not list.
func refuseForeign(dir string) error {
	st, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return failed(err)
	}
	if !st.IsDir() {
		return failed(fmt.Errorf("%s exists and is not a folder", dir))
	}
	known := map[string]bool{}
	if text, err := os.ReadFile(filepath.Join(dir, manifestName)); err == nil {
		var m manifest
		if json.Unmarshal(text, &m) == nil && m.Program == "routwright" {
			known[manifestName] = true
			for name := range m.Files {
				known[path.Clean(name)] = true
			}
		}
	}
	var foreign []string
	err = filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return nil
		}
		rel, err := filepath.Rel(dir, p)
		if err != nil {
			return err
		}
		if !known[filepath.ToSlash(rel)] {
			foreign = append(foreign, filepath.ToSlash(rel))
		}
		return nil
	})
	if err != nil {
		return failed(err)
	}
	if len(foreign) == 0 {
		return nil
	}
	sort.Strings(foreign)
	n := len(foreign)
	if n > 3 {
		foreign = append(foreign[:3], fmt.Sprintf("and %d more", n-3))
	}
	return failed(fmt.Errorf("%s holds files that are not of a set made here (%s): nothing was written; give another folder with -o, or move them away", dir, strings.Join(foreign, ", ")))
}

// render runs a writer into memory and adds the result to the set.
func (s *set) render(name string, write func(*bytes.Buffer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return s.add(name, b.Bytes())
}

// inParallel calls f for 0 … n−1 on all processors and returns the error of the
// lowest number that failed, so that a run fails the same way each time.
func inParallel(n int, f func(i int) error) error {
	errs := make([]error, n)
	work := make(chan int)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range work {
				errs[i] = f(i)
			}
		}()
	}
	for i := range n {
		work <- i
	}
	close(work)
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
