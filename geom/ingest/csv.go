package ingest

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"

	"routwright/geom"
)

// CSV reads the points x, y of one traced outline and returns the lines and
// arcs that follow them within opt.Trace. Columns are parted by commas,
// semicolons, tabs or spaces; with semicolons, tabs or spaces a decimal comma is
// read too. Lines that start with # are comments. A first line of words names
// the columns, which may then stand in any order and state their unit:
// "x (mm), y (mm)". Numbers may be fractions: "12 3/4".
//
// The points close when the last lies as near to the first as twice the longest
// step.
func CSV(name string, r io.Reader, opt Options) (Result, error) {
	res := Result{file: name}
	t, err := readTable(name, r, opt, [][]string{{"x", "y"}})
	if err != nil {
		return res, err
	}
	var ps []geom.Point
	step := 0.0
	for _, row := range t.rows {
		q := geom.Pt(row.v[0], row.v[1])
		if n := len(ps); n > 0 {
			d := ps[n-1].Dist(q)
			if d < geom.Coincident {
				continue
			}
			step = max(step, d)
		}
		ps = append(ps, q)
	}
	at := Pos{File: name}
	if len(ps) < 3 {
		return res, at.errorf("the file holds %d different %s, an outline needs 3 at least", len(ps), plural(len(ps), "point", "points"))
	}
	gap := ps[0].Dist(ps[len(ps)-1])
	closed := gap <= max(2*step, opt.join())
	if closed && gap <= opt.join() {
		ps = ps[:len(ps)-1]
	} else if closed {
		res.notef("closed from the last point to the first, %.3f mm on (the longest step is %.3f mm)", gap, step)
	}
	path, err := geom.FitPolyline(ps, closed, opt.trace(), opt.corner())
	if err != nil {
		return res, at.errorf("the points cannot be followed: %v", err)
	}
	res.notef("%d points followed by %d lines and arcs within %g mm", len(ps), len(path), opt.trace())
	if len(ps) > 100 && len(path) > len(ps)/2 {
		res.notef("the points are rougher than %g mm: a wider trace tolerance would follow them with fewer, smoother arcs", opt.trace())
	}
	n := Name{Line: t.rows[0].line}
	if closed {
		res.Paths, res.Names = []geom.Path{path}, []Name{n}
	} else {
		res.Open, res.Loose = []geom.Path{path}, []Name{n}
	}
	return res, nil
}

// HalfWidth is one reading with a ruler: at Y mm along the centre line, the
// distances from it to the edge on either side.
type HalfWidth struct {
	Y, Bass, Treble float64 // mm
	Line            int     // of the file
}

// HalfWidths reads a table of ruler readings with the columns y, bass and
// treble, or y and half for a symmetric body, in the notation of CSV. Rows come
// back as they stand in the file: y must rise all the way or fall all the way.
// Half widths are 0 or more.
func HalfWidths(name string, r io.Reader, opt Options) ([]HalfWidth, error) {
	t, err := readTable(name, r, opt, [][]string{{"y", "bass", "treble"}, {"y", "half"}})
	if err != nil {
		return nil, err
	}
	var out []HalfWidth
	for i, row := range t.rows {
		h := HalfWidth{row.v[0], row.v[1], row.v[len(row.v)-1], row.line}
		at := Pos{File: name, Line: row.line}
		if h.Bass < 0 || h.Treble < 0 {
			return nil, at.errorf("a half width is %g mm, must be 0 or more: measure outward from the centre line on both sides", min(h.Bass, h.Treble))
		}
		if i > 0 {
			step := h.Y - out[i-1].Y
			if step == 0 {
				return nil, at.errorf("y is %g mm again (line %d): one row for each place", h.Y, out[i-1].Line)
			}
			if i > 1 && (step > 0) != (out[1].Y > out[0].Y) {
				return nil, at.errorf("y turns back at %g mm: it must rise all the way or fall all the way", h.Y)
			}
		}
		out = append(out, h)
	}
	if len(out) < 3 {
		return nil, Pos{File: name}.errorf("the file holds %d %s, an outline needs 3 at least", len(out), plural(len(out), "reading", "readings"))
	}
	return out, nil
}

// table is the numbers of a file, in mm, columns in the order asked for.
type table struct{ rows []tableRow }

type tableRow struct {
	v    []float64
	line int
}

// readTable reads one of the sets of columns.
func readTable(name string, r io.Reader, opt Options, sets [][]string) (t table, err error) {
	at := Pos{File: name}
	if err := opt.check(at); err != nil {
		return t, err
	}
	b, err := slurp(at, r)
	if err != nil {
		return t, err
	}
	if isBinary(b) {
		return t, at.errorf("this is not a table but a binary file")
	}
	comma := separator(b)
	if comma == ' ' {
		b = squeeze(b)
		comma = '\t'
	}
	cr := csv.NewReader(bytes.NewReader(b))
	cr.Comma, cr.Comment, cr.FieldsPerRecord, cr.TrimLeadingSpace, cr.ReuseRecord = comma, '#', -1, comma != '\t', true
	var cols []column
	for {
		rec, err := cr.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var pe *csv.ParseError
			if errors.As(err, &pe) {
				return t, Pos{name, pe.Line, pe.Column}.errorf("%v", pe.Err)
			}
			return t, at.errorf("%v", err)
		}
		for len(rec) > 0 && strings.TrimSpace(rec[len(rec)-1]) == "" {
			rec = rec[:len(rec)-1]
		}
		if len(rec) == 0 {
			continue
		}
		where := func(i int) Pos { line, col := cr.FieldPos(i); return Pos{name, line, col} }
		if cols == nil {
			var header bool
			if cols, header, err = columns(where(0), rec, opt, sets, comma); err != nil {
				return t, err
			}
			if header {
				continue
			}
		}
		row, err := readRow(rec, cols, comma, where)
		if err != nil {
			return t, err
		}
		if t.rows = append(t.rows, row); len(t.rows) > maxPieces {
			return t, at.errorf("more than %d rows", maxPieces)
		}
	}
	if len(t.rows) == 0 {
		return t, at.errorf("the file holds no rows of numbers")
	}
	return t, nil
}

// readRow takes the columns from one record. where gives the place of a field.
func readRow(rec []string, cols []column, comma rune, where func(int) Pos) (tableRow, error) {
	row := tableRow{line: where(0).Line}
	for _, c := range cols {
		if c.i >= len(rec) {
			return row, Pos{File: where(0).File, Line: row.line}.errorf("column %s is missing: the row has %d %s", c.name, len(rec), plural(len(rec), "value", "values"))
		}
		v, ok := number(rec[c.i], comma)
		if !ok {
			return row, where(c.i).errorf("%s is %q, must be a finite number such as 12.75 or 12 3/4", c.name, rest(rec[c.i]))
		}
		if v *= c.mm; !(v >= -MaxSize && v <= MaxSize) {
			return row, where(c.i).errorf("%s is %g mm, at most %g mm are allowed", c.name, v, float64(MaxSize))
		}
		row.v = append(row.v, v)
	}
	return row, nil
}

// column is where a value stands in a row, and the mm in one of its units.
type column struct {
	name string
	i    int
	mm   float64
	said bool // the header states the unit
}

// columns settles the columns by the first record: by their names if it has
// any, else by their order.
func columns(at Pos, rec []string, opt Options, sets [][]string, comma rune) ([]column, bool, error) {
	header := true
	for _, f := range rec {
		if _, ok := number(f, comma); ok {
			header = false
		}
	}
	var want []string
	for _, s := range sets {
		want = append(want, strings.Join(s, ", "))
	}
	names := strings.Join(want, " or ")
	for _, set := range sets {
		cols := make([]column, 0, len(set))
		for i, name := range set {
			c := column{name: name, i: i, mm: opt.Unit}
			if header {
				if c.i = -1; !c.find(rec, opt) {
					break
				}
			}
			cols = append(cols, c)
		}
		if len(cols) < len(set) || !header && len(rec) != len(set) {
			continue
		}
		shareUnit(cols)
		for _, c := range cols {
			if c.mm == 0 {
				return nil, false, at.errorf("the unit of column %s is not stated: say mm or inches in the design, or in the first line (\"%s (mm)\")", c.name, c.name)
			}
		}
		return cols, header, nil
	}
	if header && sets[0][0] == "x" {
		if c := (column{name: "bass"}); c.find(rec, opt) {
			err := at.errorf("these are half widths read with a ruler (%q), where the points x, y of an outline are wanted", strings.Join(rec, ", "))
			err.(*Error).Is = ErrRuler
			return nil, false, err
		}
	}
	if header {
		return nil, false, at.errorf("the first line names the columns %q, must name %s", strings.Join(rec, ", "), names)
	}
	return nil, false, at.errorf("the row has %d values, must have %s", len(rec), names)
}

var mmPerUnit = map[string]float64{"mm": MM, "cm": 10, "in": Inch, "inch": Inch, "inches": Inch, "\"": Inch}

// find looks for the column's name in a header: "x", "x (mm)", "x_mm", "x [in]".
func (c *column) find(rec []string, opt Options) bool {
	for i, f := range rec {
		words := strings.FieldsFunc(strings.ToLower(f), func(r rune) bool { return strings.ContainsRune(" \t()[]_,", r) })
		if len(words) == 0 || words[0] != c.name {
			continue
		}
		c.i = i
		if len(words) > 1 && !(opt.UnitRules && opt.Unit > 0) {
			if mm, ok := mmPerUnit[words[len(words)-1]]; ok {
				c.mm, c.said = mm, true
			}
		}
		return true
	}
	return false
}

// shareUnit gives columns that state no unit that of the first that does:
// "y (mm), bass, treble".
func shareUnit(cols []column) {
	for _, c := range cols {
		if !c.said {
			continue
		}
		for i := range cols {
			if !cols[i].said {
				cols[i].mm = c.mm
			}
		}
		return
	}
}

// separator guesses what parts the columns from the first line of data.
func separator(b []byte) rune {
	for line := range bytes.Lines(b) {
		line = bytes.TrimSpace(line)
		if len(line) == 0 || line[0] == '#' {
			continue
		}
		for _, c := range ";\t," {
			if bytes.ContainsRune(line, c) {
				return c
			}
		}
		return ' '
	}
	return ','
}

// squeeze turns each run of spaces within a line into one tab.
func squeeze(b []byte) []byte {
	var out bytes.Buffer
	for line := range bytes.Lines(b) {
		out.Write(bytes.Join(bytes.Fields(line), []byte("\t")))
		out.WriteByte('\n')
	}
	return out.Bytes()
}

// number reads a decimal number, with a decimal comma where commas do not part
// the columns, or a mixed fraction: "12 3/4", "12-3/4", "3/4".
func number(s string, comma rune) (float64, bool) {
	s = strings.TrimSpace(s)
	if comma != ',' && strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	if v, ok := decimal(s); ok {
		return v, true
	}
	sign := 1.0
	if t, ok := strings.CutPrefix(s, "-"); ok {
		s, sign = t, -1
	}
	whole := 0.0
	frac := s
	if i := strings.IndexAny(s, " -"); i > 0 {
		var ok bool
		if whole, ok = cardinal(s[:i]); !ok {
			return 0, false
		}
		frac = strings.TrimSpace(s[i+1:])
	}
	a, b, ok := strings.Cut(frac, "/")
	n, okn := cardinal(strings.TrimSpace(a))
	d, okd := cardinal(strings.TrimSpace(b))
	if !ok || !okn || !okd || d == 0 {
		return 0, false
	}
	return sign * (whole + n/d), true
}

// decimal reads a plain finite number of SVG's grammar.
func decimal(s string) (float64, bool) {
	if numberEnd(s, 0) != len(s) || s == "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && isFinite(v)
}

func cardinal(s string) (float64, bool) {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return 0, false
		}
	}
	if s == "" || len(s) > 9 {
		return 0, false
	}
	v, err := strconv.Atoi(s)
	return float64(v), err == nil
}
