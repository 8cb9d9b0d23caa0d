package ingest

import (
	"bytes"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"routwright/geom"
)

// DXF reads the outlines of an ASCII DXF from R12 on: LINE, ARC, CIRCLE,
// ELLIPSE, LWPOLYLINE, POLYLINE, SPLINE, and INSERT of blocks, on layers that are
// on and thawed, in model space. Loose entities are chained end to end. The unit
// is that of $INSUNITS; failing that opt.Unit; failing that what $MEASUREMENT
// suggests, with a note. Coordinates are the file's own, in mm.
func DXF(name string, r io.Reader, opt Options) (Result, error) {
	at := Pos{File: name}
	res := Result{file: name}
	if err := opt.check(at); err != nil {
		return res, err
	}
	b, err := slurp(at, r)
	if err != nil {
		return res, err
	}
	switch head := b[:min(len(b), 24)]; {
	case bytes.Contains(head, []byte("Binary DXF")):
		return res, at.errorf("this is a binary DXF, which is not read: save it as ASCII DXF, R12 or R2000")
	case bytes.HasPrefix(head, []byte("AC10")) && !bytes.ContainsAny(head[:6], "\r\n"):
		return res, at.errorf("this is a .dwg file under another ending, which is not read: save it as ASCII DXF, R12 or R2000")
	case isBinary(b):
		return res, at.errorf("this is not a DXF but a binary file: save the drawing as ASCII DXF, R12 or R2000")
	}
	d := dxf{res: &res, opt: opt, in: pairs{at: at, text: string(b)}, blocks: map[string]*block{}, off: map[string]bool{}, skipped: map[string]int{}, canvas: canvas{tol: opt.join()}, insunits: -1, measurement: -1}
	if err := d.sections(); err != nil {
		return res, err
	}
	d.report()
	res.finish(&d.canvas)
	return res, nil
}

// dxf is a drawing in the course of being read.
type dxf struct {
	res    *Result
	opt    Options
	in     pairs
	canvas canvas

	insunits, measurement int // −1: not stated
	unit                  float64
	blocks                map[string]*block
	off                   map[string]bool // layers
	skipped               map[string]int  // by kind
	hidden                int
	visited               int
}

// block is a named group of entities.
type block struct {
	base     geom.Point
	entities []entityDXF
	drawing  bool // in the course of being inserted, against loops
}

// sections walks the file.
func (d *dxf) sections() error {
	section := ""
	for {
		g, ok, err := d.in.next()
		if err != nil {
			return err
		}
		if !ok {
			return Pos{File: d.in.at.File, Line: d.in.line}.errorf("the file ends without EOF: it was cut off, or is not a DXF; save it again")
		}
		if g.code == 999 { // comment
			continue
		}
		word := strings.ToUpper(strings.TrimSpace(g.s))
		switch {
		case g.code == 0 && word == "EOF":
			return nil
		case g.code == 0 && word == "SECTION":
			n, ok, err := d.in.next()
			if err != nil {
				return err
			}
			if !ok || n.code != 2 {
				return Pos{File: d.in.at.File, Line: g.line}.errorf("a SECTION without a name: the file is not a sound ASCII DXF")
			}
			section = strings.ToUpper(strings.TrimSpace(n.s))
		case g.code == 0 && word == "ENDSEC":
			section = ""
		case section == "HEADER" && g.code == 9:
			err = d.variable(word)
		case section == "TABLES" && g.code == 0 && word == "LAYER":
			err = d.layer(g)
		case section == "BLOCKS" && g.code == 0 && word == "BLOCK":
			err = d.block(g)
		case section == "ENTITIES" && g.code == 0:
			var e entityDXF
			if e, err = d.in.entity(g); err == nil {
				err = d.top(e)
			}
		case section == "" && g.code != 0:
			return Pos{File: d.in.at.File, Line: g.line}.errorf("the file does not start with a SECTION: it is not a DXF")
		}
		if err != nil {
			return err
		}
	}
}

// variable reads a header variable that matters.
func (d *dxf) variable(name string) error {
	if name != "$INSUNITS" && name != "$MEASUREMENT" {
		return nil
	}
	g, ok, err := d.in.next()
	if err != nil || !ok {
		return err
	}
	n, err := strconv.Atoi(strings.TrimSpace(g.s))
	if g.code != 70 || err != nil {
		return Pos{File: d.in.at.File, Line: g.line}.errorf("%s must be a whole number in group 70, not %q", name, rest(strings.TrimSpace(g.s)))
	}
	if name == "$INSUNITS" {
		d.insunits = n
	} else {
		d.measurement = n
	}
	return nil
}

// layer notes layers that are off or frozen.
func (d *dxf) layer(g pair) error {
	e, err := d.in.entity(g)
	if err != nil {
		return err
	}
	v := values{e: &e, file: d.in.at.File}
	if v.flags(70)&1 != 0 || v.num(62, 7) < 0 {
		d.off[strings.ToUpper(e.text(2))] = true
	}
	return v.err
}

// block stores a block's entities.
func (d *dxf) block(g pair) error {
	e, err := d.in.entity(g)
	if err != nil {
		return err
	}
	v := values{e: &e, file: d.in.at.File}
	b := &block{base: geom.Pt(v.num(10, 0), v.num(20, 0))}
	for {
		g, ok, err := d.in.next()
		if err != nil || !ok {
			return err
		}
		if word := strings.ToUpper(strings.TrimSpace(g.s)); word == "ENDBLK" || word == "ENDSEC" || word == "EOF" {
			if word != "ENDBLK" {
				d.in.held = &g
			}
			break
		}
		k, err := d.in.entity(g)
		if err != nil {
			return err
		}
		b.entities = append(b.entities, k)
	}
	d.blocks[strings.ToUpper(e.text(2))] = b
	return v.err
}

// mmPerInsunit are the millimetres in the units of $INSUNITS (DXF Reference,
// header section).
var mmPerInsunit = map[int]float64{
	1: Inch, 2: 12 * Inch, 4: 1, 5: 10, 6: 1000, 8: Inch / 1e6, 9: Inch / 1e3, 10: 36 * Inch, 13: 1e-3, 14: 100,
}

// settleUnit finds the millimetres in a drawing unit before the first entity.
func (d *dxf) settleUnit() error {
	at := d.in.at
	mm, known := mmPerInsunit[d.insunits]
	switch {
	case d.unit != 0:
	case d.opt.UnitRules && d.opt.Unit > 0:
		d.unit = d.opt.Unit
	case known:
		d.unit = mm
	case d.insunits > 0:
		return at.errorf("$INSUNITS is %d, a unit that no guitar is drawn in: draw in mm (4) or inches (1)", d.insunits)
	case d.opt.Unit > 0:
		d.unit = d.opt.Unit
		d.res.notef("the file does not state its unit: taken as %g mm, the unit asked for", d.unit)
	case d.measurement == 1:
		d.unit = MM
		d.res.notef("the file does not state its unit: taken as mm because $MEASUREMENT is 1 (metric)")
	case d.measurement == 0:
		d.unit = Inch
		d.res.notef("the file does not state its unit: taken as inches because $MEASUREMENT is 0 (imperial)")
	default:
		return at.errorf("the file does not state its unit ($INSUNITS is missing or 0): say whether it is drawn in mm or inches")
	}
	return nil
}

// top draws an entity of model space.
func (d *dxf) top(e entityDXF) error {
	if err := d.settleUnit(); err != nil {
		return err
	}
	return d.draw(e, stretch(d.unit, d.unit), nil, 0)
}

// report turns what was skipped into notes.
func (d *dxf) report() {
	var kinds []string
	for k := range d.skipped {
		kinds = append(kinds, k)
	}
	sort.Strings(kinds)
	for _, k := range kinds {
		d.res.notef("%d %s left out: not an outline", d.skipped[k], k)
	}
	if d.hidden > 0 {
		d.res.notef("%d %s on layers that are off or frozen, or hidden, left out", d.hidden, plural(d.hidden, "entity", "entities"))
	}
}

// ocs returns the map from an entity's own coordinates to the drawing's, by the
// arbitrary axis algorithm (DXF Reference, object coordinate systems). The
// extrusion must be +Z or −Z; −Z mirrors.
func (v *values) ocs() geom.Affine {
	x, y, z := v.num(210, 0), v.num(220, 0), v.num(230, 1)
	l := math.Sqrt(x*x + y*y + z*z)
	switch {
	case !(l > 0) || math.Hypot(x, y) > 1e-6*l:
		v.failf(v.e.line, "%s is tilted out of the drawing plane (extrusion %g, %g, %g): draw it flat", v.e.kind, x, y, z)
	case z < 0:
		return stretch(-1, 1)
	}
	return geom.Identity
}
