package geom

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"sort"
	"strconv"
	"testing"
)

// oracle is one case of testdata/reference/geometry_oracles.json: closed forms
// of elementary geometry, computed to 50 digits; the file names the sources.
type oracle struct {
	ID     string
	Params map[string]any
	want   map[string]float64 // all results that are one number
	Result json.RawMessage    `json:"results"`
}

func loadOracles(t *testing.T) map[string]oracle {
	t.Helper()
	raw, err := os.ReadFile("../testdata/reference/geometry_oracles.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []oracle }
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	m := map[string]oracle{}
	for _, o := range file.Cases {
		var fields map[string]any
		if err := json.Unmarshal(o.Result, &fields); err != nil {
			t.Fatal(err)
		}
		o.want = map[string]float64{}
		for k, v := range fields {
			if s, ok := v.(string); ok {
				o.want[k] = number(s)
			}
		}
		m[o.ID] = o
	}
	return m
}

func number(v any) float64 {
	switch v := v.(type) {
	case float64:
		return v
	case string:
		f, err := strconv.ParseFloat(v, 64)
		if err == nil {
			return f
		}
	}
	return math.NaN()
}

func (o oracle) num(k string) float64 { return number(o.Params[k]) }

func (o oracle) points(k string) []Point {
	var ps []Point
	for _, v := range o.Params[k].([]any) {
		xy := v.([]any)
		ps = append(ps, Pt(number(xy[0]), number(xy[1])))
	}
	return ps
}

// got is what the kernel finds for a case. Every key must be a result of it.
type got map[string]float64

func measured(p Path) got {
	m := p.Moments()
	return got{
		"area": p.Area(), "perimeter": p.Length(), "cx": m.Centroid.X, "cy": m.Centroid.Y,
		"Ixx_centroid": m.Ixx, "Iyy_centroid": m.Iyy, "Ixy_centroid": m.Ixy,
	}
}

func only(g got, keys ...string) got {
	h := got{}
	for _, k := range keys {
		h[k] = g[k]
	}
	return h
}

func butterfly(o oracle) Path {
	x, y, w := o.num("L")/2, o.num("W")/2, o.num("w")/2
	return Polygon(Pt(-x, -y), Pt(0, -w), Pt(x, -y), Pt(x, y), Pt(0, w), Pt(-x, y))
}

// elsewhere names the cases that belong to other files' tests.
var elsewhere = map[string]string{
	"el1":    "an ellipse is a curve in (EllipticArc), not a path of arcs",
	"bez":    "cubic Béziers: curves in",
	"biarc1": "biarcs: curves in", "biarc2": "biarcs: curves in",
}

// results that a case has and that no operation of geom returns.
var notReturned = map[string]bool{
	"sagitta_error": true, "overcut_shift_each_axis": true, "check_angle_sum_minus_2pi": true,
	"flank_angle_deg": true, "end_corner_interior_deg": true, "waist_reflex_interior_deg": true,
}

// TestOracles checks every closed form of the reference file that the kernel
// can express to 1e-9 relative.
func TestOracles(t *testing.T) {
	cases := loadOracles(t)
	find := oracleFinders(cases)
	var ids []string
	for id := range cases {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	for _, id := range ids {
		o := cases[id]
		if elsewhere[id] != "" {
			continue
		}
		f, ok := find[id]
		if !ok {
			t.Errorf("%s: no test", id)
			continue
		}
		g := f(t, o)
		for k, have := range g {
			want, ok := o.want[k]
			if !ok {
				t.Errorf("%s: the file has no result %q", id, k)
				continue
			}
			scale := math.Abs(want)
			if scale < 1e-9 { // zero but for the 50 digits: against the size of the shape
				scale = 1e3
			}
			if !(math.Abs(have-want) <= 1e-9*scale) {
				t.Errorf("%s: %s = %.15g, want %.15g", id, k, have, want)
			}
		}
		for k := range o.want {
			if _, ok := g[k]; !ok && !notReturned[k] {
				t.Errorf("%s: result %s is not tested", id, k)
			}
		}
	}
}

func oracleFinders(all map[string]oracle) map[string]func(*testing.T, oracle) got {
	o0 := Pt(0, 0)
	find := map[string]func(*testing.T, oracle) got{
		"rr1": func(_ *testing.T, o oracle) got {
			return only(measured(RoundedRect(o0, o.num("w"), o.num("h"), o.num("r"))), "area", "perimeter")
		},
		"st1": func(_ *testing.T, o oracle) got {
			p := Stadium(o0, Pt(o.num("straight"), 0), o.num("r"))
			g := only(measured(p), "area", "perimeter")
			g["Ix_about_long_axis"] = p.Moments().Ixx
			return g
		},
		"an1": func(_ *testing.T, o oracle) got {
			r := Region{Circle(o0, o.num("R")), Circle(o0, o.num("r")).Reversed()}
			return got{"area": r.Area(), "perimeter_total": r.Perimeter(), "I": r.Moments().Ixx}
		},
		"seg1": func(_ *testing.T, o oracle) got {
			a := ArcSweep(o0, o.num("r"), -Angle(o.num("theta_rad"))/2, Angle(o.num("theta_rad")))
			p := Path{a, Line(a.B, a.A)}
			return got{
				"area": p.Area(), "chord": a.A.Dist(a.B), "arc": a.Length(),
				"sagitta":              a.At(0.5).Dist(a.A.Lerp(a.B, 0.5)),
				"centroid_from_centre": p.Centroid().X,
			}
		},
		"seg2": func(_ *testing.T, o oracle) got {
			c := o.num("chord")
			a := ArcThrough(o0, Pt(c/2, -o.num("sagitta")), Pt(c, 0))
			return got{
				"radius": a.Radius, "theta_rad": float64(a.Sweep()), "arc": a.Length(),
				"bulge": a.Bulge(), "segment_area": Path{a, Line(a.B, a.A)}.Area(),
			}
		},
		"reul": func(_ *testing.T, o oracle) got {
			w := o.num("width")
			v := []Point{o0, Pt(w, 0), Pt(w/2, w*math.Sqrt(3)/2)}
			var p Path
			for i := range v {
				p = append(p, ArcAbout(v[(i+2)%3], v[i], v[(i+1)%3], 1))
			}
			return only(measured(p), "area", "perimeter")
		},
		"solid": func(_ *testing.T, o oracle) got {
			r := all["rr1"]
			v := RoundedRect(o0, r.num("w"), r.num("h"), r.num("r")).Area() * o.num("depth")
			return got{"volume_mm3": v, "mass_g": v * o.num("density_kg_m3") * 1e-6}
		},
		"rot": func(_ *testing.T, o oracle) got {
			p := Rotate(Angle(o.num("deg")) * Degree).Point(Pt(100, 25))
			return got{"x": p.X, "y": p.Y}
		},
		"iso": func(_ *testing.T, _ oracle) got {
			q := func(p Path) float64 { return 4 * math.Pi * p.Area() / (p.Length() * p.Length()) }
			return got{
				"circle": q(Circle(o0, 7)), "square": q(Rect(o0, 9, 9)), "rect_2:1": q(Rect(o0, 8, 4)),
				"equilateral_triangle": q(regular(3, 5)), "hexagon": q(regular(6, 5)),
				"stadium_50_10": q(Stadium(o0, Pt(50, 0), 10)),
				"rr_120_80_15":  q(RoundedRect(o0, 120, 80, 15)),
			}
		},
		"mec1": func(_ *testing.T, o oracle) got {
			return got{"radius": EnclosingCircle(Polygon(o.points("points")...)).Radius}
		},
		"mec2": func(_ *testing.T, o oracle) got {
			// Sides 5, 6, 7: the third corner by the law of cosines.
			x := (5*5.0 + 7*7 - 6*6) / (2 * 7)
			return got{"radius": EnclosingCircle(Polygon(o0, Pt(7, 0), Pt(x, math.Sqrt(25-x*x)))).Radius}
		},
		"mec3": func(_ *testing.T, o oracle) got {
			return got{"radius": EnclosingCircle(Polygon(o.points("points")...)).Radius}
		},
		"mec4": func(_ *testing.T, o oracle) got {
			return got{"radius": EnclosingCircle(Rect(Pt(7, 8), o.num("w"), o.num("h"))).Radius}
		},
		"bulge": checkBulges,
		"flat":  checkFlats,
	}
	addOffsetFinders(find, all)
	for _, n := range []int{6, 12, 64} {
		find[fmt.Sprintf("ngon%d", n)] = func(_ *testing.T, o oracle) got {
			return only(measured(regular(n, o.num("R"))), "area", "perimeter")
		}
	}
	for _, id := range []string{"poly_tri", "poly_L", "poly_trap", "poly_hex20"} {
		find[id] = func(_ *testing.T, o oracle) got { return measured(Polygon(o.points("vertices")...)) }
	}
	for _, id := range []string{"key1", "key2", "key3", "key4"} {
		find[id] = func(_ *testing.T, o oracle) got {
			g := measured(butterfly(o))
			g["area_closed_form"], g["perimeter_closed_form"] = g["area"], g["perimeter"]
			g["Ixx_closed_form"], g["Iyy_closed_form"] = g["Ixx_centroid"], g["Iyy_centroid"]
			return g
		}
	}
	return find
}

// addOffsetFinders adds the cases of the operations.
func addOffsetFinders(find map[string]func(*testing.T, oracle) got, all map[string]oracle) {
	offset := func(p Path, d float64) got {
		var c Calc
		r := c.Offset(Region{p}, d, Round)
		return got{"area": r.Area(), "perimeter": r.Perimeter()}
	}
	rect := func(o oracle) Path { return Rect(Pt(3, -4), o.num("w"), o.num("h")) }
	find["off1"] = func(_ *testing.T, o oracle) got { return offset(rect(o), o.num("r")) }
	find["off2"] = func(_ *testing.T, o oracle) got { return offset(rect(o), -o.num("r")) }
	l := Polygon(all["off3"].points("vertices")...)
	find["off3"] = func(_ *testing.T, o oracle) got {
		g := offset(l, o.num("r"))
		g["area0"], g["perimeter0"] = l.Area(), l.Length()
		return g
	}
	find["off4"] = func(_ *testing.T, o oracle) got { return offset(l, -o.num("r")) }
	key := butterfly(all["key1"])
	for _, r := range []string{"0.1", "2", "4"} {
		find["keyoff"+r] = func(_ *testing.T, o oracle) got { return offset(key, o.num("r")) }
		find["keyin"+r] = func(_ *testing.T, o oracle) got { return offset(key, -o.num("r")) }
		find["keyopen"+r] = func(_ *testing.T, o oracle) got {
			var c Calc
			return got{"area": c.Open(Region{key}, o.num("r")).Area()}
		}
	}
	find["open1"] = func(t *testing.T, o oracle) got {
		var c Calc
		nooks := c.Residue(Region{rect(o)}, o.num("cutter_radius"))
		if len(nooks) != 4 {
			t.Fatalf("%d nooks, error %v", len(nooks), c.Err())
		}
		return got{
			"area_cut":            c.Open(Region{rect(o)}, o.num("cutter_radius")).Area(),
			"left_in_each_corner": nooks[3].Area,
			"corner_to_arc":       nooks[3].Depth,
		}
	}
	for _, a := range []string{"60", "75", "90", "120"} {
		find["fil"+a] = func(t *testing.T, o oracle) got {
			b := Pt(60, 0)
			p := Polygon(Pt(0, 0), b, Pt(0, 0).Add((Angle(o.num("alpha_deg")) * Degree).Unit().Mul(60)))
			var c Calc
			for _, n := range c.Residue(Region{p}, o.num("r")) {
				if n.Corner.Dist(Pt(0, 0)) > 1e-6 {
					continue
				}
				arc := 0.0
				for _, s := range n.Region[0] {
					if s.Turn != 0 {
						arc += s.Length()
					}
				}
				return got{"tangent_length": n.Tangents[0], "vertex_to_arc": n.Depth, "area_removed": n.Area, "arc": arc}
			}
			t.Fatalf("no nook in the corner, error %v", c.Err())
			return nil
		}
	}
	find["lens"] = func(_ *testing.T, o oracle) got {
		a, b := Region{Circle(Pt(0, 0), o.num("r"))}, Region{Circle(Pt(o.num("d"), 0), o.num("r"))}
		var c Calc
		return got{"area": c.Intersect(a, b).Area(), "union": c.Union(a, b).Area()}
	}
}

func regular(n int, r float64) Path {
	var v []Point
	for i := range n {
		v = append(v, Pt(0, 0).Add((Angle(i) * 360 * Degree / Angle(n)).Unit().Mul(r)))
	}
	return Polygon(v...)
}

// rows returns the lines of a case whose results are a table.
func (o oracle) rows(t *testing.T) []map[string]any {
	var r struct{ Table []map[string]any }
	if err := json.Unmarshal(o.Result, &r); err != nil {
		t.Fatal(err)
	}
	return r.Table
}

func checkBulges(t *testing.T, o oracle) got {
	for _, row := range o.rows(t) {
		a := ArcBulge(Pt(3, 4), Pt(3+number(row["chord"]), 4), number(row["bulge"]))
		have := map[string]float64{
			"included_deg": float64(a.Sweep().Degrees()), "bulge": a.Bulge(), "radius": a.Radius,
			"arc": a.Length(), "sagitta": a.At(0.5).Dist(a.A.Lerp(a.B, 0.5)),
		}
		for k, h := range have {
			if w := number(row[k]); math.Abs(h-w) > 1e-9*w {
				t.Errorf("bulge %v: %s = %.15g, want %.15g", row["bulge"], k, h, w)
			}
		}
	}
	return nil
}

func checkFlats(t *testing.T, o oracle) got {
	for _, row := range o.rows(t) {
		n := len(Circle(Pt(0, 0), number(row["R"])).Flatten(number(row["tol"])))
		// A circle is two half circles, each in a whole number of steps.
		if w := int(number(row["min_segments_full_circle"])); n != w+w%2 {
			t.Errorf("circle of radius %v within %v: %d chords, want %d", row["R"], row["tol"], n, w+w%2)
		}
	}
	return nil
}
