package book

import (
	"fmt"

	"routwright/render"
)

// reading says how the book is read: directions, numbers, sheets, and the words of the
// trade that it uses.
func (b *writer) reading() render.Section {
	treble, bass := "right", "left"
	if b.j.Design.Hand.V == "left" {
		treble, bass = bass, treble
	}
	plus := "treble"
	if b.j.Design.Hand.V == "left" {
		plus = "bass"
	}
	return render.Section{ID: "reading", Title: "How to read this book", NewPage: true, Blocks: []render.Block{
		render.Facts{
			{Name: "Lie of the slab", Value: fmt.Sprintf("front up, the neck end away from you: the treble side is then on your %s, the bass side on your %s. From the back they change places, and sheets of the back are drawn so", treble, bass)},
			{Name: "Datums", Value: "the centre line runs along the strings through the middle of the body; the bridge line crosses it where the scale length ends, without compensation. Every place is measured from these two"},
			{Name: "x and y", Value: fmt.Sprintf("x from the centre line, + to the %s side; y from the bridge line, + to the neck, − to the tail; both as seen from the front, even for what is cut from the back", plus)},
			{Name: "Depth", Value: "from the face that the tool enters, in the wood. Setting: from the router's base, which rides on the template, to the tip of the bit; template and depth together"},
			{Name: "Sheets", Value: "a name such as layout is that of a file in sheets/, and of pages in print/a4.pdf. Pictures in this book are small: never measure or cut from them"},
			{Name: "Numbers", Value: "to a hundredth where they come from the solver; work to 0.1 mm at fits, 0.3 mm at holes, 0.5 mm elsewhere unless the step says otherwise"},
			{Name: "Boxes", Value: "tick each line when it is done; a step is done when all its boxes are ticked"},
		},
		render.Table{Caption: "Words of the trade", Head: []string{"word", "what it means"}, Rows: [][]string{
			{"pattern bit", "a straight bit with a bearing of its own size that runs along the edge of a template"},
			{"shank-side bearing", "the bearing sits between cutter and router: the template lies on the work, between router and wood"},
			{"guide bush", "a ring under the router's base through which the bit passes; it runs along the template instead of a bearing"},
			{"follower", "whichever of the two runs along the template"},
			{"pass, bite", "once round at one depth; how much deeper it is than the one before"},
			{"climb cut", "led with the turning of the bit, which then pulls the router away: never by hand"},
			{"proud", "standing above the face round it"},
			{"datum", "the line, edge or pin that places are measured from"},
			{"kerf", "the width of a saw's cut"},
			{"rebate", "the shallow ledge that a cover lies on"},
			{"recess", "the hole that a key is glued into"},
			{"caul", "a block between clamp and work that spreads the pressure"},
			{"dry", "without glue"},
		}},
	}}
}
