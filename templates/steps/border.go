package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/key"
)

// bordered are the keys with their strips on.
const bordered Thing = "the keys with their borders"

// border glues the veneer strips round the keys and returns what is glued into the
// slab: the keys as cut where there is no border.
func (b *builder) border() Thing {
	k := b.j.Keys
	if k.Fit.Spec.Border <= 0 {
		return looseKeys
	}
	wide := 0.0
	for _, f := range k.Faces() {
		wide = max(wide, b.j.RecessDepth(f))
	}
	t := render.Table{Caption: "Strips to cut", Tick: true, Head: []string{"where", "count", "length, mm", "one end", "other end"}, Number: []bool{false, true, true}}
	for i, z := range k.Sizes {
		for _, s := range z.Fit.Strips() {
			where := s.Where
			if z.Words != "" {
				where += ", " + z.Words
			}
			t.Rows = append(t.Rows, []string{where, fmt.Sprint(s.Count * k.Count(i)), mm(s.Length), s.Mitres[0].Words, s.Mitres[1].Words})
		}
	}
	s := Step{
		ID: "border-keys", Title: "Glue the borders round the keys", Stage: Stabilise,
		Needs: []Thing{recesses, looseKeys}, Makes: []Thing{bordered},
		Face: "bench", Datum: "the walls of the key", Tool: "knife, steel rule, mitre block, fine plane, tape", Depth: fmt.Sprintf("strips %s mm wide, as deep as the recess, and 1 mm more to be levelled", mm(wide+1)),
		Facts: []render.Field{
			fact("Veneer", "%s mm thick, its grain along the strip", mm(k.Fit.Spec.Border)),
			fact("Glue", "a line of %s mm on each face of the strip is counted in", mm(k.Fit.Spec.GlueLine)),
			fact("Too tight", "thin the strip with a scraper, never the key: its template has made it true"),
			fact("Wait", "what the glue's data sheet says before the key goes into its recess"),
		},
		Caution: "Knives slip: cut away from the hand that holds, along a rule that is held down. " + careGlue,
		Tables:  []render.Table{t},
	}
	if k.Fit.Spec.Corners == key.Rounded {
		s.Facts = append(s.Facts, fact("Bend", "the tightest corner has a radius of %s mm; dry veneer bends to about %d times its thickness, hot and damp to about %d", mm(k.Fit.BendRadius()), key.BendDry, key.BendHot))
		s.Do = []string{
			"Cut a strip a little longer than the table says.",
			"Bend it round the key dry, over a hot pipe where it will not go cold.",
			"Glue it on from the middle of one end round to the same place, and tape it down every 10 mm.",
			"Cut the butt where both ends meet, in the middle of an end, and press it together.",
		}
	} else {
		s.Do = []string{
			"Mitre the two end strips first, by the angles of the table, and glue them on, their tips level with the corners.",
			"Fit each flank strip between the end and the waist: mitre the end, offer it up, mark the waist, cut, try, glue.",
			"Tape everything down; no gap at a mitre is filled later.",
		}
	}
	s.Do = append(s.Do, "When it is dry, level the strips with the key's faces, and try the key in its recess: it goes in by hand pressure.")
	b.add(s)
	return bordered
}
