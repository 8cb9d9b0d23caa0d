package ingest

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"routwright/geom"
)

// Limits on what is read. Each is far above a body outline and far below what
// would trouble the machine.
const (
	// MaxBytes is the largest file that is read, in bytes.
	MaxBytes = 50 << 20

	// MaxSize is the largest coordinate in millimetres: 100 m. float64 keeps
	// such a coordinate to 1.5e-11 mm, well under geom.Coincident.
	MaxSize = 1e5

	maxPieces = 200_000 // lines and curves in one file
)

// Millimetres in the units that Options.Unit and the formats know.
const (
	MM   = 1.0
	Inch = 25.4 // exact, international yard and pound agreement, 1959
)

// Options says what the file itself does not. The zero Options is ready for
// files that state their units.
type Options struct {
	// Unit is the millimetres in one unit of a file that does not state its
	// units (a CSV, some DXF). 0 means not known: such a file is an error.
	Unit float64

	// UnitRules makes Unit hold even where the file states another. In an SVG
	// it is then the size of one user unit of the drawing.
	UnitRules bool

	// Join is the largest gap in mm between two ends that are joined, with a
	// note, at most 5; 0 means DefaultJoin. Larger gaps leave the outline open.
	Join float64

	// Trace is how far in mm the arcs may lie from the points of a CSV trace, at
	// most 5; 0 means geom.CurveToArc.
	Trace float64

	// Corner is the least turn between two steps of a CSV trace that is kept as
	// a corner; 0 means DefaultCorner.
	Corner geom.Angle

	// Pick chooses one piece of a drawing of many for Outline: an id, a layer,
	// "#3" for the third piece of the file, or "largest".
	Pick string
}

const (
	// DefaultJoin is half of what a careful maker can see (0.02 mm, common
	// practice).
	DefaultJoin = 0.01

	// DefaultCorner lies between the steps of a dense trace (a step of 2 mm
	// round a radius of 6 mm turns 19°) and the corners that people draw.
	DefaultCorner = 30 * geom.Degree
)

func (o Options) join() float64 {
	if o.Join > 0 {
		return max(o.Join, geom.Coincident)
	}
	return DefaultJoin
}

func (o Options) trace() float64 {
	if o.Trace > 0 {
		return o.Trace
	}
	return geom.CurveToArc
}

func (o Options) corner() geom.Angle {
	if o.Corner > 0 {
		return o.Corner
	}
	return DefaultCorner
}

// check refuses numbers that no file can cure.
func (o Options) check(at Pos) error {
	for _, f := range []struct {
		name   string
		v, max float64
	}{{"unit", o.Unit, MaxSize}, {"join", o.Join, 5}, {"trace", o.Trace, 5}, {"corner", o.Corner.Degrees(), 180}} {
		if !(f.v >= 0 && f.v <= f.max) {
			return at.errorf("option %s is %v, must be a number from 0 to %g", f.name, f.v, f.max)
		}
	}
	return nil
}

// Name says where in its file a path comes from.
type Name struct {
	ID     string   // of the element, "" if it has none
	Label  string   // that an editor shows for it, "" if it has none
	Layers []string // layers or groups round it by id or label, innermost first
	Line   int      // of the file, 0 if not known
}

// Result is what a drawing holds.
type Result struct {
	Paths []geom.Path // closed loops in mm, +Y up, in the order of the file
	Names []Name      // of Paths
	Open  []geom.Path // what does not close
	Loose []Name      // of Open
	Notes []string    // what was assumed, joined or left out

	file  string
	yDown bool // the file counts y downward; errors speak its language
	forks []fork
}

func (r *Result) notef(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// Read reads an outline in the format that the ending of name says: .svg, .dxf
// or .csv (also .txt), in capitals or not. name is used for errors; r is read
// to its end, at most MaxBytes of it. It never panics; an error is an *Error.
func Read(name string, r io.Reader, opt Options) (Result, error) {
	switch ext := strings.ToLower(filepath.Ext(name)); ext {
	case ".svg":
		return SVG(name, r, opt)
	case ".dxf":
		return DXF(name, r, opt)
	case ".csv", ".txt":
		return CSV(name, r, opt)
	case ".svgz", ".dwg", ".ai", ".eps", ".pdf":
		return Result{}, Pos{File: name}.errorf("%s files are not read: save the drawing as plain .svg or ASCII .dxf", ext)
	default:
		return Result{}, Pos{File: name}.errorf("ending %q is not known: an outline is a .svg, .dxf or .csv file", ext)
	}
}

// slurp reads the whole of r as text, refusing early what is too large. It
// turns UTF-16 with a byte order mark into UTF-8 and drops the mark.
func slurp(at Pos, r io.Reader) ([]byte, error) {
	tooLarge := func(n int64) error {
		size := fmt.Sprintf("more than %d MB", MaxBytes>>20)
		if n > 0 {
			size = fmt.Sprintf("%d MB", n>>20)
		}
		return at.errorf("the file has %s, at most %d MB are read: save the outline alone, without pictures", size, MaxBytes>>20)
	}
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if fi, err := f.Stat(); err == nil && fi.Size() > MaxBytes {
			return nil, tooLarge(fi.Size())
		} else if err == nil && fi.IsDir() {
			return nil, at.errorf("is a folder, not a file")
		}
	}
	b, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, at.errorf("cannot be read: %v", err)
	}
	if len(b) > MaxBytes {
		return nil, tooLarge(0)
	}
	if len(bytes.TrimSpace(b)) == 0 {
		return nil, at.errorf("the file is empty")
	}
	return toUTF8(b), nil
}

func toUTF8(b []byte) []byte {
	switch {
	case bytes.HasPrefix(b, []byte("\xef\xbb\xbf")):
		return b[3:]
	case len(b) >= 2 && (b[0] == 0xff && b[1] == 0xfe || b[0] == 0xfe && b[1] == 0xff):
		big := 0
		if b[0] == 0xfe {
			big = 1
		}
		u := make([]uint16, 0, len(b)/2)
		for i := 2; i+1 < len(b); i += 2 {
			u = append(u, uint16(b[i+big])|uint16(b[i+1-big])<<8)
		}
		return []byte(string(utf16.Decode(u)))
	}
	return b
}

// latin1 reads bytes that are not UTF-8 as ISO 8859-1.
func latin1(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	r := make([]rune, len(s))
	for i := range len(s) {
		r[i] = rune(s[i])
	}
	return string(r)
}

// isBinary reports whether b holds control characters that no text holds.
func isBinary(b []byte) bool {
	for _, c := range b[:min(len(b), 4096)] {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 0x1a {
			return true
		}
	}
	return false
}
