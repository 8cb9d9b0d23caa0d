// Package gallery holds the pictures of the geometry kernel: each operation of
// package geom on a small figure, computed and drawn by this program. Its tests
// compare them with testdata/pictures/kernel-*.svg, which DEVELOPERS.md shows.
//
//	go test ./render/gallery -update     draws them anew; look at them
package gallery
