// Package design reads the design file: TOML, written by hand beside a ruler.
//
//	types      Design and its tables; their tags are the one table of all keys
//	values     Val, Pos, Origin: what a value is, where it stands, who said it
//	reading    Parse → Design, or Errors: everything that is wrong, in one run
//	lengths    ParseLength, Length, MM, Inches: millimetres inside, 25 1/2 in outside
//	errors     Error, Errorf, Errors: shared with the solving of a design
//	names      Slug: a name as a file name
//	derived    Schema (JSON Schema), Reference (Markdown), both from the tags
//	starter    Starter: a commented design to begin with
//
// A new key is a new field with its tags, and nothing else:
//
//	toml     the key
//	doc      what it is, for the schema and the reference
//	range    the numbers allowed, both ends included; lengths with their unit
//	oneof    the words allowed
//	items    how many values a list takes, "least,most"
//	need     "true" when the file must give it
//	text     rule for a text: "name" (becomes a file name), "label" (is printed),
//	         "file" (an outline beside the design), "paper"
//	unique   names of this kind appear once in the file
//	ref      the text is the name of one of this kind
//	single   "true" when one value may stand for a list of one
//	bare     "true" for the value that may stand in place of its table; it has no key
//
// Below it, package toml reads the file's syntax and knows no guitars.
package design
