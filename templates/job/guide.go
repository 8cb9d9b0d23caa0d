package job

import (
	"fmt"
	"math"

	"routwright/templates/design"
)

// Guide is the block that leads the drill of a channel: it stands on the face, its
// square end behind the rim of the cavity, and the end that the drill enters is
// tilted to stand square to it. mm; lengths count from the square end.
type Guide struct {
	Long, Wide, High float64
	Behind           float64 // from the rim to the square end
	Start            float64 // from the entry in the wood to the square end, along the face
	Bore             float64
	Mouth            float64 // height of the bore's axis over the sole at the square end
	Tilt             float64 // slope of the axis, mm up a mm back
	// EnterX and EnterY are where the axis leaves the tilted end, from the square
	// end and from the sole.
	EnterX, EnterY float64
	Tape           float64 // from the tip of the drill to the tape that stops it at the tilted end
}

// Of the guide of a long drill, mm; common practice.
const (
	guideLong   = 60.0 // of the block along the drill: eight drills and more
	guideBehind = 5.0  // from the rim, so that its edge shows
	guideCover  = 12.0 // wood over the bore
	guidePlate  = 15.0 // that the block reaches past the entry where there is no rim
)

// Guide returns the block for a channel that is drilled over the rim of a cavity or
// down from a face.
func (j *Job) Guide(c Channel) Guide {
	from, p := c.From(), c.Path
	phi := float64(p.Angle(from))
	g := Guide{Long: guideLong, Wide: math.Ceil(math.Max(40, 4*c.D)), Behind: guideBehind, Bore: c.D, Tilt: math.Tan(phi)}
	g.Start = p.Rim + guideBehind
	if from.Plate {
		g.Start = -guidePlate // the drill comes out of the block's sole over the entry
	}
	g.Mouth = g.Start*g.Tilt - p.Entry
	g.High = math.Ceil(g.Mouth + g.Long*g.Tilt + c.D/2/math.Cos(phi) + guideCover)
	// The tilted end is x = Long − y·Tilt; the axis y = Mouth + x·Tilt.
	g.EnterY = (g.Mouth + g.Long*g.Tilt) / (1 + g.Tilt*g.Tilt)
	g.EnterX = g.Long - g.EnterY*g.Tilt
	g.Tape = (g.Start+g.EnterX)/math.Cos(phi) + p.Length()
	return g
}

// ChannelWords is what is needed at the drill for a channel, in words: for its sheet
// and for its step.
type ChannelWords struct{ Drill, Entry, Angle, Length, Lead, Stands, Stop string }

// ChannelWords returns the words of a channel that was found.
func (j *Job) ChannelWords(c Channel) ChannelWords {
	mm := design.MM
	from, p := c.From(), c.Path
	u := p.Heading()
	plan := math.Atan2(math.Abs(u.X), math.Abs(u.Y)) * 180 / math.Pi
	w := ChannelWords{
		Drill:  fmt.Sprintf("%s mm, %s mm standing out of the chuck, from %s into %s", mm(c.D), mm(c.Drill), from.Name, c.To().Name),
		Entry:  fmt.Sprintf("x %s, y %s mm; its middle %s mm below the %s", mm(p.From.X), mm(p.From.Y), mm(p.Entry), from.Face),
		Angle:  fmt.Sprintf("%s° to the %s; in plan %s° from the centre line", mm(p.Angle(from).Degrees()), from.Face, mm(plan)),
		Length: fmt.Sprintf("%s mm in the wood, %s mm in plan; it falls %s mm", mm(p.Length()), mm(p.Run()), mm(math.Abs(p.To.Z-p.From.Z))),
	}
	switch {
	case from.Side:
		w.Lead = "Lead the drill through the bore of the jack."
		w.Stands = "in the bore of the jack"
		w.Stop = fmt.Sprintf("tape on the drill %s mm from its tip: there the tape reaches the mouth of the jack's bore", mm(p.From.Flat().Dist(from.Mouth)+p.Length()))
	case from.Open:
		w.Lead = "Lay the drill in the neck pocket, over its floor, along the line; pack it up with a grooved block that holds the angle."
		w.Stands = "in the neck pocket, on a grooved block that holds the angle"
		w.Stop = fmt.Sprintf("tape on the drill %s mm from its tip: there the tape reaches the wall of the pocket", mm(p.Length()))
	default:
		g := j.Guide(c)
		w.Lead = "Lead the drill with the guide of this channel, clamped on the face; mark the depth with tape."
		w.Stands = fmt.Sprintf("on the %s, its square end %s mm behind the rim of %s, its line on the line of the drill", from.Face, mm(g.Behind), from.Name)
		if from.Plate {
			w.Stands = fmt.Sprintf("on the %s, the bore's mouth in the sole over the entry at x %s, y %s mm", from.Face, mm(p.From.X), mm(p.From.Y))
		}
		w.Stop = fmt.Sprintf("tape on the drill %s mm from its tip: there the tape reaches the tilted end of the guide", mm(g.Tape))
	}
	return w
}
