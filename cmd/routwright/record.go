package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/record"
)

// recordName is the file of a set that says what it is made of.
const recordName = "record.json"

// errNoRecord says that a set was made before sets had records, or by another
// command.
var errNoRecord = errors.New("no record")

// recordIn returns the record of the set in dir; nil without a set there. A set
// without one is errNoRecord. A record that is not as the set was written, or that
// cannot be read, is an error: it may be all that says what is cut in the wood.
func recordIn(dir string) (*record.Record, error) {
	text, err := os.ReadFile(filepath.Join(dir, manifestName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, failed(err)
	}
	var m manifest
	if json.Unmarshal(text, &m) != nil || m.Program != "routwright" {
		return nil, nil // no set of ours: told when it would be replaced
	}
	want, listed := m.Files[recordName]
	if !listed {
		return nil, errNoRecord
	}
	name := filepath.Join(dir, recordName)
	fail := func(err error) error {
		return failed(fmt.Errorf("%s: %w; it says what is cut in the wood: put it back from a copy; if nothing of this set is cut, give another folder, or delete this one", name, err))
	}
	if text, err = os.ReadFile(name); err != nil {
		return nil, fail(err)
	}
	r, err := record.Read(text)
	if err != nil {
		return nil, fail(err)
	}
	if hash(text) != want {
		return nil, fail(errors.New("it was changed after the set was made"))
	}
	return r, nil
}

// recordOf returns the record of the set that the command line names; nil where it
// names none. Here a folder without one is an error.
func recordOf(dir string) (*record.Record, error) {
	if dir == "" {
		return nil, nil
	}
	r, err := recordIn(dir)
	if err == nil && r == nil || errors.Is(err, errNoRecord) {
		return nil, failed(fmt.Errorf("%s holds no %s of a set that routwright make wrote", dir, recordName))
	}
	return r, err
}

// kept returns what a record holds of the wood; nil without one.
func kept(r *record.Record) *job.Kept {
	if r == nil {
		return nil
	}
	return &r.Kept
}

// keepsRecord refuses a set without a record in place of one whose record says that
// something is cut.
func (s *set) keepsRecord(dir string) error {
	if s.file(recordName) != nil {
		return nil
	}
	r, err := recordIn(dir)
	if err != nil && !errors.Is(err, errNoRecord) {
		return err
	}
	if r == nil {
		return nil
	}
	for _, p := range r.Parts {
		if p.Cut {
			return failed(fmt.Errorf("%s holds the record of what is cut in the wood (%s): nothing was written; give another folder with -o", dir, p.Part))
		}
	}
	return nil
}

// record writes what the set is made of.
func (s *set) record(j *job.Job, sheets []render.Sheet) error {
	s.made = record.Of(j, sheets)
	return s.render(recordName, func(b *bytes.Buffer) error { return s.made.Write(b) })
}

// writeChanges says what changed since the set that was in dir.
func writeChanges(w io.Writer, dir string, d record.Diff) error {
	var b strings.Builder
	if len(d.Changes) == 0 {
		fmt.Fprintf(&b, "\nNothing changed since the set that was in %s.\n", dir)
		_, err := io.WriteString(w, b.String())
		return err
	}
	fmt.Fprintf(&b, "\nChanged since the set that was in %s, lengths in mm:\n", dir)
	for _, c := range d.Changes {
		words := strings.Join(c.Words, "; ")
		switch c.State {
		case record.New:
			words = "new: " + c.Name
		case record.Gone:
			words = "gone: " + c.Name
		}
		if c.Cut {
			words = "cut already, leave it as it is: " + words
		}
		fmt.Fprintf(&b, "  %-30s %s\n", c.ID, words)
	}
	fmt.Fprintf(&b, "  %-30s %d\n", "unchanged", d.Same)
	_, err := io.WriteString(w, b.String())
	return err
}

// setFlag names the set that parts marked as cut were cut from.
func setFlag() cli.Flag {
	return &cli.StringFlag{Name: "set", Usage: "hold what is marked as cut against the set in `DIR`, that it was cut from"}
}
