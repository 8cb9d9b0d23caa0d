//go:build native

#include "peer.h"
#include <geos_c.h>
#include <stdarg.h>
#include <stdlib.h>

static GEOSContextHandle_t ctx(void) {
	static GEOSContextHandle_t h;
	if (!h) h = GEOS_init_r();
	return h;
}

const char *peer_geos_version(void) { return GEOSversion(); }

static GEOSGeometry *ring(const double *xy, int n) {
	GEOSCoordSequence *s = GEOSCoordSeq_create_r(ctx(), n + 1, 2);
	for (int i = 0; i <= n; i++)
		GEOSCoordSeq_setXY_r(ctx(), s, i, xy[2 * (i % n)], xy[2 * (i % n) + 1]);
	return GEOSGeom_createLinearRing_r(ctx(), s);
}

void *peer_geos_new(const double *xy, const int *counts, int paths) {
	GEOSGeometry *outer = ring(xy, counts[0]);
	GEOSGeometry **holes = malloc(sizeof *holes * (paths + 1));
	xy += 2 * counts[0];
	for (int i = 1; i < paths; i++) { holes[i - 1] = ring(xy, counts[i]); xy += 2 * counts[i]; }
	GEOSGeometry *g = GEOSGeom_createPolygon_r(ctx(), outer, holes, paths - 1);
	free(holes);
	return g;
}

void peer_geos_free(void *g) { GEOSGeom_destroy_r(ctx(), g); }
void *peer_geos_buffer(void *g, double d, int q) { return GEOSBuffer_r(ctx(), g, d, q); }
void *peer_geos_difference(void *a, void *b) { return GEOSDifference_r(ctx(), a, b); }
void *peer_geos_prepare(void *g) { return (void *)GEOSPrepare_r(ctx(), g); }

// peer_geos_collect copies the pieces into one multipolygon; they must not meet.
void *peer_geos_collect(void **gs, int n) {
	GEOSGeometry **c = malloc(sizeof *c * n);
	for (int i = 0; i < n; i++) c[i] = GEOSGeom_clone_r(ctx(), gs[i]);
	GEOSGeometry *r = GEOSGeom_createCollection_r(ctx(), GEOS_MULTIPOLYGON, c, n);
	free(c);
	return r;
}

int peer_geos_contains(void *prep, const double *xy, int n) {
	int in = 0;
	for (int i = 0; i < n; i++) {
		GEOSGeometry *p = GEOSGeom_createPointFromXY_r(ctx(), xy[2 * i], xy[2 * i + 1]);
		in += GEOSPreparedContains_r(ctx(), prep, p) == 1;
		GEOSGeom_destroy_r(ctx(), p);
	}
	return in;
}

double peer_geos_distance(void *a, void *b) {
	double d = -1;
	GEOSDistanceIndexed_r(ctx(), a, b, &d);
	return d;
}

double peer_geos_area(void *g) {
	double a = -1;
	GEOSArea_r(ctx(), g, &a);
	return a;
}

static void add(peer_paths *p, const GEOSGeometry *r) {
	const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(ctx(), r);
	unsigned n = 0;
	GEOSCoordSeq_getSize_r(ctx(), s, &n);
	if (n) n--;
	p->xy = realloc(p->xy, sizeof(double) * 2 * (p->points + n + 1));
	p->counts = realloc(p->counts, sizeof(int) * (p->paths + 1));
	for (unsigned i = 0; i < n; i++)
		GEOSCoordSeq_getXY_r(ctx(), s, i, &p->xy[2 * (p->points + i)], &p->xy[2 * (p->points + i) + 1]);
	p->points += n;
	p->counts[p->paths++] = n;
}

peer_paths peer_geos_paths(void *g) {
	peer_paths p = {0, 0, 0, 0};
	int n = GEOSGetNumGeometries_r(ctx(), g);
	for (int i = 0; i < n; i++) {
		const GEOSGeometry *q = GEOSGetGeometryN_r(ctx(), g, i);
		if (GEOSGeomTypeId_r(ctx(), q) != GEOS_POLYGON || GEOSisEmpty_r(ctx(), q)) continue;
		add(&p, GEOSGetExteriorRing_r(ctx(), q));
		int h = GEOSGetNumInteriorRings_r(ctx(), q);
		for (int k = 0; k < h; k++) add(&p, GEOSGetInteriorRingN_r(ctx(), q, k));
	}
	return p;
}
