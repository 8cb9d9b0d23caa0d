// Package native calls Clipper and GEOS, as Debian packs them. Without the build
// tag native it is empty.
package native
