"""Reads a DXF with GDAL and says what it holds as JSON.

GDAL turns arcs into chords; a small step keeps the areas close.
"""
import json
import subprocess
import sys

out = subprocess.run(
    ["ogr2ogr", "--config", "OGR_ARC_STEPSIZE", "0.25", "--config", "CPL_DEBUG", "OFF",
     "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9", "/vsistdout/", sys.argv[1], "entities"],
    capture_output=True, text=True, check=True)
errors = [l for l in out.stderr.splitlines() if l.strip()]
area, closed = {}, {}
xs, ys = [], []


def ring(layer, pts):
    if len(pts) < 4 or pts[0] != pts[-1]:
        return
    x0, y0 = pts[0][0], pts[0][1]
    a = sum((p[0] - x0) * (q[1] - y0) - (q[0] - x0) * (p[1] - y0) for p, q in zip(pts, pts[1:])) / 2
    area[layer] = area.get(layer, 0) + abs(a)
    closed[layer] = closed.get(layer, 0) + 1


for f in json.loads(out.stdout)["features"]:
    g, p = f["geometry"], f["properties"]
    if not g or g["type"] == "Point":  # words
        continue
    rings = g["coordinates"] if g["type"] == "Polygon" else [g["coordinates"]]
    for r in rings:
        ring(p["Layer"], r)
        xs += [q[0] for q in r]
        ys += [q[1] for q in r]

print(json.dumps({
    "Program": "gdal", "Units": 0, "Errors": errors, "Area": area, "Closed": closed,
    "Min": [min(xs), min(ys)] if xs else [0, 0], "Max": [max(xs), max(ys)] if xs else [0, 0],
}))
