//go:build native

#include "peer.h"
#include <polyclipping/clipper.hpp>
#include <cmath>
#include <cstdlib>
using namespace ClipperLib;

// Clipper counts in whole numbers, here of 1e-8 mm. With 1e-6 mm the second of
// two offsets of dense chords came out wrong by 1.7 mm² (6.4.2): the edges of the
// loops that it must untangle are then few units long.
static const double unit = 1e8;

static Paths in(const double *xy, const int *counts, int paths) {
	Paths out(paths);
	for (int i = 0, k = 0; i < paths; i++) {
		out[i].reserve(counts[i]);
		for (int j = 0; j < counts[i]; j++, k++)
			out[i].push_back(IntPoint(llround(xy[2 * k] * unit), llround(xy[2 * k + 1] * unit)));
	}
	return out;
}

static peer_paths give(const Paths &ps) {
	peer_paths r = {0, 0, (int)ps.size(), 0};
	for (auto &p : ps) r.points += p.size();
	r.xy = (double *)malloc(sizeof(double) * 2 * (r.points + 1));
	r.counts = (int *)malloc(sizeof(int) * (ps.size() + 1));
	int k = 0, i = 0;
	for (auto &p : ps) {
		r.counts[i++] = p.size();
		for (auto &q : p) { r.xy[k++] = q.X / unit; r.xy[k++] = q.Y / unit; }
	}
	return r;
}

extern "C" {
void peer_free(peer_paths p) { free(p.xy); free(p.counts); }
const char *peer_clipper_version(void) { return CLIPPER_VERSION; }

peer_paths peer_offset(const double *xy, const int *counts, int paths, double d, double tol, double mitre) {
	ClipperOffset co(mitre > 0 ? mitre : 2.0, tol * unit);
	co.AddPaths(in(xy, counts, paths), mitre > 0 ? jtMiter : jtRound, etClosedPolygon);
	Paths out;
	co.Execute(out, d * unit);
	return give(out);
}

peer_paths peer_boolean(const double *xa, const int *ca, int na, const double *xb, const int *cb, int nb, int op) {
	Clipper c;
	c.AddPaths(in(xa, ca, na), ptSubject, true);
	c.AddPaths(in(xb, cb, nb), ptClip, true);
	Paths out;
	static const ClipType ops[] = {ctIntersection, ctUnion, ctDifference, ctXor};
	c.Execute(ops[op], out, pftNonZero, pftNonZero);
	return give(out);
}
}
