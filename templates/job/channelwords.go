package job

import (
	"fmt"
	"math"

	"routwright/templates/design"
	"routwright/templates/jig"
)

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
		whole := g.Lead + p.Length()
		w.Lead = "Lead the drill with the guide of this channel, clamped on the face; mark the depth with tape."
		w.Stands = fmt.Sprintf("on the %s, its square end %s mm behind the rim of %s, its line on the line of the drill", from.Face, mm(jig.GuideBehind), from.Name)
		if from.Plate {
			w.Stands = fmt.Sprintf("on the %s, the bore's mouth in the sole over the entry at x %s, y %s mm", from.Face, mm(p.From.X), mm(p.From.Y))
		}
		w.Stop = fmt.Sprintf("tape on the drill %s mm from its tip: the hole is through when the tape meets the tilted end (%s of them before the wood begins)", mm(whole), mm(g.Lead))
		if c.Drill < whole { // what is drilled by then leads the drill
			w.Stop += fmt.Sprintf(". The chuck meets the guide %s mm before that: take the guide off then, the hole leads the drill", mm(whole-c.Drill))
		}
	}
	return w
}
