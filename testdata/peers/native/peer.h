// C faces of Clipper and GEOS for the tests. Paths are rows of x, y with the
// count of points of each path beside them.
#ifndef PEER_H
#define PEER_H
#ifdef __cplusplus
extern "C" {
#endif
typedef struct { double *xy; int *counts; int paths; int points; } peer_paths;
void peer_free(peer_paths p);
const char *peer_clipper_version(void);
// Even-odd filled closed paths; mitre 0 joins round within tol.
peer_paths peer_offset(const double *xy, const int *counts, int paths, double d, double tol, double mitre);
// op: 0 intersection, 1 union, 2 difference, 3 exclusive-or.
peer_paths peer_boolean(const double *xa, const int *ca, int na, const double *xb, const int *cb, int nb, int op);

const char *peer_geos_version(void);
void *peer_geos_new(const double *xy, const int *counts, int paths); // first path outer, others holes
void peer_geos_free(void *g);
void *peer_geos_buffer(void *g, double d, int quadsegs);
void *peer_geos_difference(void *a, void *b);
void *peer_geos_collect(void **gs, int n);
void *peer_geos_prepare(void *g);
int peer_geos_contains(void *prep, const double *xy, int n);
double peer_geos_distance(void *a, void *b);
double peer_geos_area(void *g);
peer_paths peer_geos_paths(void *g);
#ifdef __cplusplus
}
#endif
#endif
