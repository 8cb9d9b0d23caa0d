package cut

import (
	"fmt"
	"math"

	"routwright/templates/design"
	"routwright/templates/tool"
)

// Rides is what the follower of a pass runs on.
type Rides uint8

const (
	OnTemplate Rides = iota // the whole height of the bearing, or the bush, on the template
	OnBoth                  // partly on the template, partly on the wall already cut
	OnWall                  // on the wall already cut
	OnNothing               // neither carries it
	Led                     // nothing, nor need it: the machine leads a free path
	NotKnown                // the cutting length or the bearing's height was not given
)

// String returns what the follower runs on, in words.
func (r Rides) String() string {
	return [...]string{"the template", "the template and the wall already cut", "the wall already cut", "nothing", "nothing: the machine leads it", "not known: the bit's cutting length or its bearing's height was not given"}[r]
}

// Pass is one pass of the router.
type Pass struct {
	Depth float64 // mm below the face after the pass
	Bite  float64 // mm taken by it
	On    Rides
}

// Routing is the list of passes for one cut, with what stands against it.
type Routing struct {
	Passes []Pass
	// FirstBite is the shallowest first cut in mm that keeps the whole bearing on
	// the template; 0 when any depth will do.
	FirstBite float64
	Wanted    float64 // whole depth, mm
	Template  float64 // thickness of what the base rides on, mm; 0 where it rides on the work
	Problem   string  // empty when the passes can be made
	Cure      string
}

// Setting returns what a router is set to for a depth in the work, mm: how far the
// tip of the bit stands below the base, which rides on the template.
func (r Routing) Setting(depth float64) float64 { return r.Template + depth }

// TemplateOff returns the number of passes after which the template may come off,
// because in all that follow the bearing runs on the wall already cut; 0 where it
// must stay to the end.
func (r Routing) TemplateOff() int {
	n := len(r.Passes)
	for n > 0 && r.Passes[n-1].On == OnWall {
		n--
	}
	if n == len(r.Passes) {
		return 0
	}
	return n
}

// Through is how far the tip of a bit runs past the lower face of a piece that it
// trims, mm: no feather of wood stays. Common practice.
const Through = 1

// Trim returns the passes that trim the edge of a piece of the given thickness, mm,
// under a template. The cutter runs past the lower face, by Through or by what its
// bearing asks for on the template.
func Trim(t tool.Tool, thick, template float64) Routing {
	return Plan(t, math.Max(thick+Through, t.FirstBite(template)), template)
}

// Plan returns the passes that cut to depth mm with t through a template of the
// given thickness. The first bite is that of the tool (Tool.FirstBite). Later passes
// take half the cutter's diameter (common practice). A cutting length or height of
// the bearing of 0 counts as not given: then only the depth of each bite is planned.
func Plan(t tool.Tool, depth, template float64) Routing {
	r := Routing{Wanted: depth, Template: template}
	step := t.Cutter / 2
	first := math.Min(step, depth)
	known := t.Guide == tool.Bearing && t.Length > 0 && t.Height > 0
	if known {
		r.FirstBite = t.FirstBite(template)
		first = math.Max(first, r.FirstBite)
	}
	if first > depth+1e-9 {
		r.Problem = fmt.Sprintf("the shallowest first cut is %s mm, deeper than the %s mm wanted: cutter %s long, template %s, bearing %s high", design.MM(first), design.MM(depth), design.MM(t.Length), design.MM(template), design.MM(t.Height))
		r.Cure = fmt.Sprintf("use a template of %s mm or thicker, or a cutter of at most %s mm", design.MM(math.Ceil(template+first-depth)), design.MM(math.Floor(t.Length-(first-depth))))
		return r
	}
	n := int(math.Ceil((depth-first)/step - 1e-9))
	for i := 0; i <= n; i++ {
		z := first
		if n > 0 {
			z = first + (depth-first)*float64(i)/float64(n)
		}
		p := Pass{Depth: z, Bite: z}
		if i > 0 {
			p.Bite = z - r.Passes[i-1].Depth
		}
		switch {
		case t.Free():
			p.On = Led
		case t.Guide == tool.Bearing && !known:
			p.On = NotKnown
		case known:
			p.On = rides(t, z, template)
			if p.On == OnBoth || p.On == OnWall {
				if problem, cure := onWall(t, r.Passes, p); problem != "" && r.Problem == "" {
					r.Problem, r.Cure = problem, cure
				}
			}
		}
		r.Passes = append(r.Passes, p)
	}
	return r
}

// rides returns what the bearing touches when the cutter stands z deep: it
// spans c − z to c − z + b above the face, the template 0 to its thickness.
func rides(t tool.Tool, z, template float64) Rides {
	low, high := t.Length-z, t.Length-z+t.Height
	switch {
	case low >= 0 && low < template:
		return OnTemplate
	case low >= template:
		return OnNothing
	case high > 0:
		return OnBoth
	}
	return OnWall
}

// onWall returns what is wrong with a pass whose bearing leaves the template.
func onWall(t tool.Tool, before []Pass, p Pass) (problem, cure string) {
	if !t.OwnSize() {
		return fmt.Sprintf("at %s mm deep the bearing of %s mm leaves the template and runs on the wall, which would add the offset of %s mm again", design.MM(p.Depth), design.MM(t.Follower), design.MM(t.Offset())),
			fmt.Sprintf("use a cutter of at least %s mm, or a bearing of the cutter's own size, which may run on the wall", design.MM(p.Depth))
	}
	wall := 0.0
	if len(before) > 0 {
		wall = before[len(before)-1].Depth
	}
	if need := p.Depth - t.Length; need > wall {
		return fmt.Sprintf("at %s mm deep the bearing runs %s mm below the face, where no wall is cut yet", design.MM(p.Depth), design.MM(need)), "take smaller passes, or use a longer cutter; the template may come off once the wall is as deep as the bearing is high"
	}
	return "", ""
}
