package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/geom"
	"routwright/render"
	"routwright/render/dxf"
	"routwright/render/svg"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/key"
	"routwright/templates/sheet"
	"routwright/templates/tool"
)

func keyCommand() *cli.Command {
	text := func(name, usage string) cli.Flag { return &cli.StringFlag{Name: name, Usage: usage} }
	return &cli.Command{
		Name:  "key",
		Usage: "one matched key, recess and template from flags alone",
		Description: "The recess is as drawn; the gap comes off the key. Writes key, recess and template as SVG\n" +
			"and DXF, a test coupon, and report.json with the numbers of the proof, in mm and mm².\n" +
			"A plain number is in --units; a length may carry its own: \"1/4 in\".\n" +
			"With a collar on an inlay bush one opening serves both, and the collar fixes the gap.\n\n" +
			"Example:  routwright key --length 60 --ends 26 --waist 13 --depth 12 --bit 6.35 -o key\n" +
			"          routwright key --length 60 --ends 26 --waist 20 --depth 12 --bit 8 --bush 20 --corners chiselled --json\n" +
			"          routwright key --length 80 --ends 44 --waist 24 --depth 10 --bit 3.175 --inlay-bush 7.9375 --collar 14.2875 -o key\n" +
			"          routwright key --length 60 --ends 26 --waist 13 --depth 12 --bit 6 --free -o key",
		OnUsageError:    usageError,
		HideHelpCommand: true,
		Flags: []cli.Flag{
			text("length", "`LENGTH` along the key's axis"),
			text("ends", "`WIDTH` at the ends"),
			text("waist", "`WIDTH` at the waist"),
			text("depth", "`DEPTH` of the recess"),
			text("bit", "`DIAMETER` of the cutter, as measured"),
			text("bearing", "`DIAMETER` of the bearing; the cutter's own unless given"),
			text("bush", "outside `DIAMETER` of a guide bush, in place of a bearing"),
			&cli.BoolFlag{Name: "free", Usage: "no follower and no template: paths for the middle of the cutter, for a numerically controlled router"},
			text("inlay-bush", "outside `DIAMETER` of the inlay bush without its collar"),
			text("collar", "outside `DIAMETER` of the collar"),
			text("corners", "`HOW` the corners fit: chiselled, rounded or relieved (rounded)"),
			text("gap", "glue `GAP` a side (0.08 mm)"),
			text("border", "`THICKNESS` of veneer strips round the key"),
			text("glue-line", "`THICKNESS` of the glue on each face of a border (0.05 mm)"),
			text("inside-radius", "smallest inside `RADIUS` that the template's maker can cut (0)"),
			text("template", "`THICKNESS` of the template sheet (18 mm)"),
			text("cut", "cutting `LENGTH` of the bit, and"),
			text("bearing-height", "`HEIGHT` of its bearing: with both the passes and the first bite are planned"),
			text("base", "`DIAMETER` of the router's base (150 mm): the template sheet is made to carry it"),
			&cli.IntFlag{Name: "count", Value: 1, Usage: "`NUMBER` of keys: the height of one blank to resaw is reported"},
			text("units", "`mm` or in: of plain numbers"),
			&cli.StringFlag{Name: "o", Usage: "folder to write; an old set in it is replaced as a whole"},
			&cli.BoolFlag{Name: "json", Usage: "print the report"},
		},
		Action: runKey,
	}
}

// keyInput reads the flags of one run and keeps every fault.
type keyInput struct {
	c    *cli.Context
	unit string
	bad  []string
}

// length reads a flag as mm, or takes the default; a negative default means that
// the flag is needed.
func (k *keyInput) length(name string, def float64) float64 {
	s := k.c.String(name)
	if s == "" {
		if def < 0 {
			k.bad = append(k.bad, fmt.Sprintf("--%s is needed", name))
		}
		return def
	}
	v, err := design.ParseLength(s, k.unit)
	switch {
	case err != nil:
		k.bad = append(k.bad, fmt.Sprintf("--%s %s: %v", name, s, err))
	case !(v >= 0 && v <= 1000): // a key longer than a metre is a slip
		k.bad = append(k.bad, fmt.Sprintf("--%s %s: a length from 0 to 1000 mm", name, s))
	default:
		return float64(v)
	}
	return 0
}

// Defaults of the key command; common practice, editable by flags.
const (
	keyGap      = 0.08 // a side
	keyGlueLine = 0.05
	keySheet    = 18.0
	keyWeb      = 40.0 // template sheet round the opening
	keyBase     = 150.0
	sawKerf     = 1.5 // of a band saw with its clean-up, per key
)

func runKey(c *cli.Context) error {
	if c.Args().Present() {
		return codedError{exitUsage, fmt.Errorf("key takes no argument, only flags: %q is none", c.Args().First())}
	}
	k := &keyInput{c: c, unit: c.String("units")}
	if k.unit == "" {
		k.unit = "mm"
	}
	f, depth, err := k.fit()
	if err != nil {
		return codedError{exitUsage, err}
	}
	female, male, err := k.templates(f, depth)
	if err != nil {
		return codedError{exitUsage, err}
	}
	p, err := key.Prove(f, female, male)
	if err != nil {
		return err
	}
	report, err := keyReport(f, p, depth, c.Int("count"))
	if err != nil {
		return err
	}
	if dir := c.String("o"); dir != "" {
		s := newSet(nil)
		if err := s.keySheets(sheet.ForKey(f, p, depth), report); err != nil {
			return err
		}
		if err := s.write(dir); err != nil {
			return err
		}
		what := "key, recess, template, coupon and report.json"
		if f.Tool.Free() {
			what = "paths for key and recess, coupon and report.json"
		}
		fmt.Fprintf(c.App.ErrWriter, "%s written: %s\n", dir, what)
	}
	if c.Bool("json") || c.String("o") == "" {
		if _, err := c.App.Writer.Write(report); err != nil {
			return failed(err)
		}
	}
	if why := keyStop(f, p, depth); why != "" {
		fmt.Fprintln(c.App.ErrWriter, "stop  "+why)
		return errStop
	}
	return nil
}

// templates returns the two templates, the female one on a sheet that carries the
// router's base where any does.
func (k *keyInput) templates(f key.Fit, depth float64) (female, male cut.Template, err error) {
	sheet, base := k.length("template", keySheet), k.length("base", keyBase)
	if len(k.bad) > 0 {
		return female, male, fmt.Errorf("%s", strings.Join(k.bad, "\n"))
	}
	female, male = f.Templates(depth, sheet, keyWeb)
	female, _, err = cut.Carried(female, base, keyWeb, func(web float64) geom.Region { return cut.SheetRound(f.Female.Bounds(), web) })
	return female, male, err
}

// keyStop says why the pair cannot be cut; empty when it can.
func keyStop(f key.Fit, p key.Proof, depth float64) string {
	if r := cut.Plan(f.Tool, depth, p.Female.Sheet); r.Problem != "" {
		return r.Problem + ": " + r.Cure
	}
	switch {
	case f.Inlay == nil && !f.Tool.Free() && len(f.Male) != 1:
		return fmt.Sprintf("the male template falls apart at the waist: the follower is %g mm a side larger than the bit; cut the key with a bearing of the bit's own size, or widen the waist", f.Tool.Offset())
	case !p.Recess.Lost.Empty():
		return fmt.Sprintf("the follower blunts the template, and the recess comes out up to %.2f mm over its line: round the waist by %g mm or more (--corners rounded), or use a bearing of the bit's own size", p.Recess.LostDepth, f.Tool.Offset())
	case !p.Recess.Left.Empty():
		return fmt.Sprintf("the bit leaves wood in the recess, up to %.2f mm from its line: use a smaller bit", p.Recess.LeftReach)
	case !p.Key.Lost.Empty():
		return fmt.Sprintf("the follower rounds the corners of the key, which loses up to %.2f mm there: use --corners rounded, or a bearing of the bit's own size", p.Key.LostDepth)
	case !p.Key.Left.Empty():
		return fmt.Sprintf("the bit leaves wood on the key, up to %.2f mm from its line: use a smaller bit", p.Key.LeftReach)
	case p.Gap.Min < -geom.Coincident:
		return fmt.Sprintf("the key stands %.3f mm outside its recess: give a larger gap", -p.Gap.Min)
	}
	return ""
}

// fit reads the key and its tools, and draws them.
func (k *keyInput) fit() (key.Fit, float64, error) {
	c := k.c
	if k.unit != "mm" && k.unit != "in" {
		k.bad = append(k.bad, fmt.Sprintf("--units %s: mm or in", k.unit))
		k.unit = "mm"
	}
	s := key.Spec{
		Length: k.length("length", -1), Ends: k.length("ends", -1), Waist: k.length("waist", -1),
		Gap: k.length("gap", keyGap), Border: k.length("border", 0), GlueLine: k.length("glue-line", keyGlueLine),
		Template: k.length("inside-radius", 0), Corners: key.Rounded,
	}
	depth, d := k.length("depth", -1), k.length("bit", -1)
	if v := c.String("corners"); v != "" {
		s.Corners = key.Corners(v)
		if s.Corners != key.Chiselled && s.Corners != key.Rounded && s.Corners != key.Relieved {
			k.bad = append(k.bad, fmt.Sprintf("--corners %s: chiselled, rounded or relieved", v))
		}
	}
	if n := c.Int("count"); n < 1 || n > 100 {
		k.bad = append(k.bad, fmt.Sprintf("--count %d: 1 to 100", n))
	}
	t := tool.Tool{Bit: "of the command line", Cutter: d, Follower: k.length("bearing", d)}
	inlay := key.Inlay{Bush: k.length("inlay-bush", 0), Collar: k.length("collar", 0)}
	if c.IsSet("bush") {
		t.Guide, t.GuideOf, t.Follower = tool.Bush, "of the command line", k.length("bush", 0)
		if t.Follower <= d {
			k.bad = append(k.bad, fmt.Sprintf("--bush %g: larger than the bit of %g mm, which must pass through it", t.Follower, d))
		}
		if c.IsSet("bearing") {
			k.bad = append(k.bad, "--bush and --bearing: one of them follows the template, not both")
		}
	}
	t.Length, t.Height = k.length("cut", 0), k.length("bearing-height", 0)
	if c.Bool("free") {
		t.Guide, t.GuideOf, t.Follower, t.Height = tool.Free, "", 0, 0
		for _, other := range []string{"bearing", "bush", "inlay-bush", "collar", "inside-radius", "template", "bearing-height", "base"} {
			if c.IsSet(other) {
				k.bad = append(k.bad, fmt.Sprintf("--free and --%s: nothing follows a template on a free path; leave one of them out", other))
			}
		}
	}
	isInlay := c.IsSet("inlay-bush") || c.IsSet("collar")
	if isInlay {
		if !c.IsSet("inlay-bush") || !c.IsSet("collar") {
			k.bad = append(k.bad, "--inlay-bush and --collar go together")
		}
		if c.IsSet("gap") {
			k.bad = append(k.bad, "--gap: the collar fixes the gap, which is reported; leave it out")
		}
		if c.IsSet("bush") || c.IsSet("bearing") {
			k.bad = append(k.bad, "--inlay-bush: without --bush and --bearing")
		}
	}
	if !(d > 0) && len(k.bad) == 0 {
		k.bad = append(k.bad, "--bit 0: a diameter greater than 0")
	}
	if !(t.Follower > 0) && !t.Free() && len(k.bad) == 0 {
		k.bad = append(k.bad, "--bearing 0: a diameter greater than 0")
	}
	if len(k.bad) > 0 {
		return key.Fit{}, 0, fmt.Errorf("%s", strings.Join(k.bad, "\n"))
	}
	var f key.Fit
	var err error
	if isInlay {
		f, err = key.MakeInlay(s, t.Bit, d, inlay)
		f.Tool.Length = t.Length
	} else {
		f, err = key.Make(s, t)
	}
	return f, depth, err
}

// keySheets adds the files of a key to the set.
func (s *set) keySheets(k sheet.KeySheets, report []byte) error {
	for _, e := range []struct {
		sheet render.Sheet
		dxf   bool
	}{{k.Key, true}, {k.Recess, true}, {k.Template, true}, {k.Coupon, false}} {
		if e.sheet.ID == "" { // a free path has no template
			continue
		}
		d, err := render.Layout(e.sheet, render.LayoutOptions{})
		if err != nil {
			return err
		}
		if err := s.render(e.sheet.ID+".svg", func(b *bytes.Buffer) error { return svg.Write(b, d) }); err != nil {
			return err
		}
		if e.dxf {
			if err := s.render(e.sheet.ID+".dxf", func(b *bytes.Buffer) error { return dxf.Write(b, d, dxf.Options{CutOnly: true}) }); err != nil {
				return err
			}
		}
	}
	return s.add("report.json", report)
}

// keyReport is the proof as programs read it; mm and mm².
func keyReport(f key.Fit, p key.Proof, depth float64, count int) ([]byte, error) {
	size := func(r interface{ W() float64 }, h float64) map[string]float64 {
		return map[string]float64{"length": r.W(), "ends": h}
	}
	recess, made, open := f.Recess.Bounds(), f.Key.Bounds(), f.Female.Bounds()
	var corner struct{ distance, tangent float64 }
	if f.Spec.Corners == key.Chiselled {
		corner.distance = key.CornerDistance(f.Tool.CutRadius(), f.Spec.End())
		corner.tangent = key.CornerTangent(f.Tool.CutRadius(), f.Spec.End())
	}
	report := map[string]any{
		"gap_min": p.Gap.Min, "gap_max": p.Gap.Max, "gap_mean": p.Gap.Mean,
		"wood_left_area":  p.Recess.Left.Area() + p.Key.Left.Area(),
		"wood_lost_area":  p.Recess.Lost.Area() + p.Key.Lost.Area(),
		"by_hand_area":    p.Recess.ByHand.Area() + p.Key.ByHand.Area(),
		"corner_distance": corner.distance, "corner_tangent": corner.tangent,
		"waist_excess":  waistExcess(f),
		"flank_deg":     f.Spec.Flank().Degrees(),
		"corners":       string(f.Spec.Corners),
		"corner_radius": f.Radius,
		"recess":        size(recess, recess.H()), "key": size(made, made.H()), "template": size(open, open.H()),
		"offset":       f.Tool.Offset(),
		"border_grows": f.Spec.Grows(),
		"depth":        depth,
		"first_bite":   firstPass(f, p, depth),
		"passes":       passList(f, p, depth),
		"way":          f.Way(),
		// One blank, trimmed once and resawn: n(h + 1.5) + (n − 1)·kerf.
		"blank_height": float64(count)*(depth+1.5) + float64(count-1)*sawKerf,
		"count":        count,
		"fallbacks":    p.Recess.Fallbacks + p.Key.Fallbacks,
	}
	if f.Tool.Free() {
		report["path"] = report["template"]
		delete(report, "template")
	}
	out, err := json.MarshalIndent(report, "", "  ")
	return append(out, '\n'), err
}

// waistExcess is the fillet that the bit leaves at a sharp waist, a side.
func waistExcess(f key.Fit) float64 {
	if f.Spec.Corners == key.Rounded {
		return 0
	}
	return key.WaistExcess(f.Tool.CutRadius(), f.Spec.Flank())
}

// firstPass is the depth of the first pass.
func firstPass(f key.Fit, p key.Proof, depth float64) float64 {
	if p := cut.Plan(f.Tool, depth, p.Female.Sheet).Passes; len(p) > 0 {
		return p[0].Depth
	}
	return 0
}

// keyPass is one pass as programs read it.
type keyPass struct {
	Depth float64 `json:"depth"`
	Bite  float64 `json:"bite"`
	On    string  `json:"runs_on"`
}

func passList(f key.Fit, p key.Proof, depth float64) []keyPass {
	out := []keyPass{}
	for _, e := range cut.Plan(f.Tool, depth, p.Female.Sheet).Passes {
		out = append(out, keyPass{e.Depth, e.Bite, e.On.String()})
	}
	return out
}
