//go:build verify

package verify

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"

	"routwright/geom"
)

// svgFile is an SVG as read: its size and its lines, in mm from the lower left.
type svgFile struct {
	title string
	w, h  float64
	lines []line
}

// look is what an element inherits.
type look struct {
	width  float64
	dashed bool
	filled bool
	name   string // of a ruler or cross
	skip   bool   // transformed or clipped
}

// readSVG reads as much of SVG as this program writes: groups, paths of M, L, A
// and Z, circles. It shares nothing with the writer.
func readSVG(path string) (svgFile, error) {
	var s svgFile
	f, err := os.Open(path)
	if err != nil {
		return s, err
	}
	defer f.Close()
	dec := xml.NewDecoder(f)
	stack := []look{{}}
	inTitle := false
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return s, nil
		}
		if err != nil {
			return s, fmt.Errorf("%s: %w", path, err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			l := stack[len(stack)-1]
			attrs := map[string]string{}
			for _, a := range e.Attr {
				attrs[a.Name.Local] = a.Value
			}
			if err := s.element(e.Name.Local, attrs, &l); err != nil {
				return s, fmt.Errorf("%s: %w", path, err)
			}
			stack = append(stack, l)
			inTitle = e.Name.Local == "title"
		case xml.EndElement:
			stack = stack[:len(stack)-1]
			inTitle = false
		case xml.CharData:
			if inTitle && s.title == "" {
				s.title = string(e)
			}
			// A title names the lines of the group round it.
			if inTitle && strings.HasPrefix(string(e), "cross at ") {
				stack[len(stack)-2].name = string(e)
			}
		}
	}
}

func (s *svgFile) element(name string, a map[string]string, l *look) error {
	if v, ok := a["stroke-width"]; ok {
		l.width, _ = strconv.ParseFloat(v, 64)
	}
	if v, ok := a["stroke-dasharray"]; ok {
		l.dashed = v != "none"
	}
	if v, ok := a["fill"]; ok {
		l.filled = v != "none"
	}
	if strings.Contains(a["id"], "ruler-") {
		l.name = a["id"]
	}
	if a["transform"] != "" || a["clip-path"] != "" {
		l.skip = true
	}
	switch name {
	case "svg":
		var err error
		if s.w, err = mm(a["width"]); err != nil {
			return err
		}
		if s.h, err = mm(a["height"]); err != nil {
			return err
		}
		var x, y, w, h float64
		if _, err := fmt.Sscan(a["viewBox"], &x, &y, &w, &h); err != nil || x != 0 || y != 0 || w != s.w || h != s.h {
			return fmt.Errorf("viewBox %q is not the size in mm", a["viewBox"])
		}
	case "circle":
		x, y, r := num(a["cx"]), num(a["cy"]), num(a["r"])
		for _, e := range geom.Circle(geom.Pt(x, s.h-y), r) {
			s.add(e, l)
		}
	case "path":
		return s.path(a["d"], l)
	}
	return nil
}

func mm(v string) (float64, error) {
	n, ok := strings.CutSuffix(v, "mm")
	if !ok {
		return 0, fmt.Errorf("size %q is not in mm", v)
	}
	return strconv.ParseFloat(n, 64)
}

func num(v string) float64 { f, _ := strconv.ParseFloat(v, 64); return f }

func (s *svgFile) add(e geom.Seg, l *look) {
	if l.skip {
		return
	}
	k := line{seg: e, width: l.width, name: l.name}
	if l.dashed || l.filled {
		k.width = -1
	}
	s.lines = append(s.lines, k)
}

var pathToken = regexp.MustCompile(`[A-Za-z]|-?[\d.]+(?:e-?\d+)?`)

func (s *svgFile) path(d string, l *look) error {
	toks := pathToken.FindAllString(d, -1)
	var at, start geom.Point
	next := func() float64 {
		if len(toks) == 0 {
			return math.NaN()
		}
		v := num(toks[0])
		toks = toks[1:]
		return v
	}
	cmd := ""
	for len(toks) > 0 {
		if c := toks[0][0]; c >= 'A' && c != '-' {
			cmd, toks = toks[0], toks[1:]
		}
		switch cmd {
		case "M":
			at = geom.Pt(next(), s.h-next())
			start = at
			cmd = "L"
		case "L":
			to := geom.Pt(next(), s.h-next())
			s.add(geom.Line(at, to), l)
			at = to
		case "A":
			r, _, _ := next(), next(), next()
			large, sweep := next(), next()
			to := geom.Pt(next(), s.h-next())
			s.add(arcByEnds(at, to, r, large != 0, sweep != 0), l)
			at = to
		case "Z":
			if at.Dist(start) > 1e-9 {
				s.add(geom.Line(at, start), l)
			}
			at = start
		default:
			return fmt.Errorf("path command %q", cmd)
		}
	}
	return nil
}

// arcByEnds is SVG 1.1, appendix F.6, for circles, with y up.
func arcByEnds(a, b geom.Point, r float64, large, sweep bool) geom.Seg {
	c := a.Dist(b)
	h := math.Sqrt(math.Max(0, r*r-c*c/4))
	n := b.Sub(a).Unit().Left()
	turn := int8(1) // y is turned over: positive sweep is clockwise
	if sweep {
		turn = -1
	}
	side := float64(turn)
	if large {
		side = -side
	}
	return geom.ArcAbout(a.Lerp(b, 0.5).Add(n.Mul(side*h)), a, b, turn)
}
