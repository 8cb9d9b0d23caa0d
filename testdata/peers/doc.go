// Package peers holds tests of routwright against programs that others wrote, in
// a module of its own so that the program's module graph stays small:
//
//   - github.com/peterstace/simplefeatures, booleans and distances in Go,
//   - GEOS and Clipper from Debian, through package native (tag native, cgo).
//
// Arcs are flattened to chords within 3e-5 mm for them. `make peers` in the
// folder above installs the libraries and runs everything, the table of times
// included. Plain `go test ./...` here leaves GEOS and Clipper out. The flags
// -cases and -seed set how many random cases run and which.
package peers
