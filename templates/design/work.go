package design

// Work is how the work is done.
type Work struct {
	Table
	Order Val[[]string] `toml:"order" text:"name" items:"1,60" doc:"names of steps in the order in which you want them, as the shop book names them; the others fall in between"`
}
