package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
)

// version of the format. A record of another version is refused.
const version = 1

// MaxFile is the size in bytes of the largest record that is read: twenty times
// what the largest design makes.
const MaxFile = 32 << 20

// The record as it stands in the file. Every list has one item a line, so that two
// records can be compared line by line in any editor.
type (
	fileHead struct {
		Record    int     `json:"record"`
		Program   string  `json:"program"`
		Name      string  `json:"name"`
		Hand      string  `json:"hand"`
		Thickness float64 `json:"thickness"`
		AllKeys   bool    `json:"all_keys_cut"`
	}
	fileLists struct {
		Pins      []filePin      `json:"pins"`
		Parts     []filePart     `json:"parts"`
		Keys      []fileKey      `json:"keys"`
		Templates []fileTemplate `json:"templates"`
		Sheets    []fileSheet    `json:"sheets"`
	}
	filePin struct {
		Name string     `json:"name"`
		At   [2]float64 `json:"at"`
		D    float64    `json:"d"`
	}
	filePart struct {
		ID     string      `json:"id"`
		Name   string      `json:"name"`
		Kind   part.Kind   `json:"kind"`
		Face   string      `json:"face"`
		Adds   bool        `json:"adds,omitempty"`
		Cut    bool        `json:"cut,omitempty"`
		Group  string      `json:"group,omitempty"`
		Solids []fileSolid `json:"solids,omitempty"`
		Bores  []fileBore  `json:"bores,omitempty"`
	}
	fileSolid struct {
		Top   [3]float64 `json:"top"` // z, dz/dx, dz/dy
		Floor [3]float64 `json:"floor"`
		Plan  []path     `json:"plan"`
	}
	fileBore struct {
		From  [3]float64 `json:"from"`
		To    [3]float64 `json:"to"`
		D     float64    `json:"d"`
		Words string     `json:"for,omitempty"`
	}
	fileKey struct {
		Name   string     `json:"name"`
		At     [2]float64 `json:"at"`
		Turn   float64    `json:"turn"` // radians
		Face   string     `json:"face"`
		Length float64    `json:"length"`
		Meets  bool       `json:"meets,omitempty"`
	}
	fileTemplate struct {
		ID         string     `json:"id"`
		Name       string     `json:"name"`
		Part       string     `json:"part"`
		Tool       string     `json:"tool"`
		Depth      [2]float64 `json:"depth"`
		Passes     int        `json:"passes"`
		FirstDepth float64    `json:"first_pass"`
		Thickness  float64    `json:"thickness"`
		Inside     float64    `json:"inside_radius"`
		Pins       []filePin  `json:"pins,omitempty"`
		Holes      []fileHole `json:"holes,omitempty"`
		Shape      []path     `json:"shape"`
		Blank      []path     `json:"blank,omitempty"`
	}
	fileHole  [3]float64 // x, y, diameter
	fileSheet struct {
		ID    string     `json:"id"`
		Title string     `json:"title"`
		Holes []fileHole `json:"holes,omitempty"`
		Lines []path     `json:"lines,omitempty"`
	}
)

// Write writes the record as JSON: the same bytes for the same record, every number
// in the shortest digits that read back to the same bits.
func (r *Record) Write(w io.Writer) error {
	head, err := json.Marshal(fileHead{version, "routwright", r.Name, r.Hand, r.Thickness, r.AllKeys})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.Write(head[:len(head)-1])
	list(&b, &err, "pins", toPins(r.Pins))
	list(&b, &err, "parts", each(r.Parts, toPart))
	list(&b, &err, "keys", each(r.Keys, toKey))
	list(&b, &err, "templates", each(r.Templates, toTemplate))
	list(&b, &err, "sheets", each(r.Sheets, func(s Sheet) fileSheet {
		return fileSheet{s.ID, s.Title, toHoles(s.Holes), toPaths(s.Lines)}
	}))
	if err != nil {
		return fmt.Errorf("the record: %w", err)
	}
	b.WriteString("\n}\n")
	_, err = w.Write(b.Bytes())
	return err
}

// list writes one list of the record, an item a line.
func list[T any](b *bytes.Buffer, err *error, name string, items []T) {
	fmt.Fprintf(b, ",\n%q: [", name)
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	for i, v := range items {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
		if e := enc.Encode(v); e != nil && *err == nil {
			*err = e
		}
		b.Truncate(len(bytes.TrimRight(b.Bytes(), "\n")))
	}
	b.WriteByte(']')
}

func each[T, U any](in []T, f func(T) U) []U {
	out := make([]U, len(in))
	for i, v := range in {
		out[i] = f(v)
	}
	return out
}

func toPins(ps []cut.Pin) []filePin {
	return each(ps, func(p cut.Pin) filePin { return filePin{p.Name, [2]float64{p.At.X, p.At.Y}, p.D} })
}

func toHoles(hs []Hole) []fileHole {
	return each(hs, func(h Hole) fileHole { return fileHole{h.At.X, h.At.Y, h.D} })
}

func toPart(p job.KeptPart) filePart {
	f := filePart{ID: p.ID, Name: p.Name, Kind: p.Kind, Face: p.Face.String(), Adds: p.Adds, Cut: p.Cut, Group: p.Group}
	for _, s := range p.Solids {
		f.Solids = append(f.Solids, fileSolid{[3]float64{s.Top.Z, s.Top.DX, s.Top.DY}, [3]float64{s.Floor.Z, s.Floor.DX, s.Floor.DY}, toPaths(s.Plan)})
	}
	for _, b := range p.Bores {
		f.Bores = append(f.Bores, fileBore{[3]float64{b.From.X, b.From.Y, b.From.Z}, [3]float64{b.To.X, b.To.Y, b.To.Z}, b.D, b.Words})
	}
	return f
}

func toKey(k job.KeptKey) fileKey {
	return fileKey{k.Name, [2]float64{k.At.X, k.At.Y}, float64(k.Turn), k.Face.String(), k.Length, k.Meets}
}

func toTemplate(t Template) fileTemplate {
	return fileTemplate{t.ID, t.Name, t.Part, t.Tool, t.Depth, t.Passes, t.FirstDepth, t.Thickness, t.Inside,
		toPins(t.Pins), toHoles(t.Holes), toPaths(t.Shape), toPaths(t.Blank)}
}

// Read reads a record and holds it to its rules: known version, known faces, every
// id once, sizes that a guitar has. What breaks one is an error in
// words; it never panics, whatever the text.
func Read(text []byte) (*Record, error) {
	if len(text) > MaxFile {
		return nil, fmt.Errorf("a record of more than %d MB", MaxFile>>20)
	}
	var all struct {
		fileHead
		fileLists
	}
	err := json.Unmarshal(text, &all)
	head, lists := all.fileHead, all.fileLists
	if err != nil { // perhaps of another version: its head tells
		head = fileHead{}
		if e := json.Unmarshal(text, &head); e != nil {
			return nil, damaged(e)
		}
	}
	switch {
	case head.Program != "routwright" || head.Record == 0:
		return nil, errors.New("no record of a set made by routwright")
	case head.Record != version:
		return nil, fmt.Errorf("a record of format %d; this program reads format %d", head.Record, version)
	case err != nil:
		return nil, damaged(err)
	case head.Hand != "right" && head.Hand != "left":
		return nil, fmt.Errorf("it is damaged: hand is %q, not right or left", head.Hand)
	}
	r := &Record{Name: head.Name}
	r.Hand, r.Thickness, r.AllKeys = head.Hand, head.Thickness, head.AllKeys
	rd := reader{ids: map[string]bool{}}
	rd.size("thickness", r.Thickness)
	r.Pins = rd.pins("pins", lists.Pins)
	for _, p := range lists.Parts {
		r.Parts = append(r.Parts, rd.part(p))
	}
	clear(rd.ids)
	for _, k := range lists.Keys {
		rd.once("key", k.Name)
		rd.size("length of key "+k.Name, k.Length)
		rd.number("place of key "+k.Name, k.At[0], k.At[1], k.Turn)
		r.Keys = append(r.Keys, job.KeptKey{Name: k.Name, At: geom.Pt(k.At[0], k.At[1]), Turn: geom.Angle(k.Turn), Face: rd.face(k.Face, k.Name), Length: k.Length, Meets: k.Meets})
	}
	clear(rd.ids)
	for _, t := range lists.Templates {
		rd.once("template", t.ID)
		rd.number("template "+t.ID, t.Depth[0], t.Depth[1], t.FirstDepth, t.Thickness, t.Inside)
		r.Templates = append(r.Templates, Template{ID: t.ID, Name: t.Name, Part: t.Part, Shape: fromPaths(t.Shape), Blank: fromPaths(t.Blank),
			Pins: rd.pins("template "+t.ID, t.Pins), Holes: rd.holes("template "+t.ID, t.Holes), Thickness: t.Thickness, Inside: t.Inside,
			Tool: t.Tool, Depth: t.Depth, Passes: t.Passes, FirstDepth: t.FirstDepth})
	}
	for _, s := range lists.Sheets {
		rd.once("sheet", s.ID)
		r.Sheets = append(r.Sheets, Sheet{ID: s.ID, Title: s.Title, Lines: fromPaths(s.Lines), Holes: rd.holes("sheet "+s.ID, s.Holes)})
	}
	if rd.err != nil {
		return nil, damaged(rd.err)
	}
	return r, nil
}

func damaged(err error) error {
	var cut *json.SyntaxError
	if errors.As(err, &cut) {
		return fmt.Errorf("it is damaged at byte %d: %w", cut.Offset, err)
	}
	return fmt.Errorf("it is damaged: %w", err)
}

// reader keeps the first thing that is wrong.
type reader struct {
	ids map[string]bool
	err error
}

func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf(format, args...)
	}
}

func (r *reader) once(what, id string) {
	if id == "" || r.ids[id] {
		r.fail("%s %q twice, or without a name", what, id)
	}
	r.ids[id] = true
}

// number bounds values, mm or less.
func (r *reader) number(what string, vs ...float64) {
	for _, v := range vs {
		if !(math.Abs(v) <= farthest) {
			r.fail("%s: %g is out of reach", what, v)
		}
	}
}

// size bounds a value that is over 0.
func (r *reader) size(what string, v float64) {
	if !(v > 0 && v <= farthest) {
		r.fail("%s: %g mm", what, v)
	}
}

func (r *reader) face(s, of string) part.Face {
	switch s {
	case "front":
	case "back":
		return part.Back
	default:
		r.fail("%s: face %q, not front or back", of, s)
	}
	return part.Front
}

func (r *reader) pins(of string, ps []filePin) []cut.Pin {
	var out []cut.Pin
	for _, p := range ps {
		r.number("pin "+p.Name+" of "+of, p.At[0], p.At[1])
		r.size("pin "+p.Name+" of "+of, p.D)
		out = append(out, cut.Pin{Name: p.Name, At: geom.Pt(p.At[0], p.At[1]), D: p.D})
	}
	return out
}

func (r *reader) holes(of string, hs []fileHole) []Hole {
	var out []Hole
	for _, h := range hs {
		r.number("hole of "+of, h[0], h[1], h[2])
		out = append(out, Hole{geom.Pt(h[0], h[1]), h[2]})
	}
	return out
}

func (r *reader) part(p filePart) job.KeptPart {
	r.once("part", p.ID)
	out := job.KeptPart{Cut: p.Cut, Part: part.Part{ID: p.ID, Name: p.Name, Kind: p.Kind, Face: r.face(p.Face, p.ID), Adds: p.Adds, Group: p.Group}}
	if len(p.Solids)+len(p.Bores) == 0 {
		r.fail("part %s is made of nothing", p.ID)
	}
	for _, s := range p.Solids {
		plan := fromPaths(s.Plan)
		if plan.Empty() {
			r.fail("part %s has a surface without a plan", p.ID)
		}
		r.number("part "+p.ID, append(s.Top[:], s.Floor[:]...)...)
		out.Solids = append(out.Solids, part.Solid{Plan: plan, Top: part.Plane{Z: s.Top[0], DX: s.Top[1], DY: s.Top[2]}, Floor: part.Plane{Z: s.Floor[0], DX: s.Floor[1], DY: s.Floor[2]}})
	}
	for _, b := range p.Bores {
		r.number("part "+p.ID, append(b.From[:], b.To[:]...)...)
		r.size("a hole of part "+p.ID, b.D)
		out.Bores = append(out.Bores, part.Bore{From: part.Point{X: b.From[0], Y: b.From[1], Z: b.From[2]}, To: part.Point{X: b.To[0], Y: b.To[1], Z: b.To[2]}, D: b.D, Words: b.Words})
	}
	return out
}
