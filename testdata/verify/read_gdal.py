"""Reads DXF files with GDAL and says what they hold as JSON.

GDAL turns arcs into chords; a small step keeps the areas close.
"""
import json
import subprocess
import sys


def ring_area(pts):
    x0, y0 = pts[0][0], pts[0][1]
    return abs(sum((p[0] - x0) * (q[1] - y0) - (q[0] - x0) * (p[1] - y0) for p, q in zip(pts, pts[1:])) / 2)


def read(path):
    out = subprocess.run(
        ["ogr2ogr", "--config", "OGR_ARC_STEPSIZE", "0.25", "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9",
         "/vsistdout/", path, "entities"],
        capture_output=True, text=True, check=True)
    area, closed, xs, ys = {}, {}, [], []
    for f in json.loads(out.stdout)["features"]:
        g, layer = f["geometry"], f["properties"]["Layer"]
        if not g or g["type"] == "Point":  # words
            continue
        for r in g["coordinates"] if g["type"] == "Polygon" else [g["coordinates"]]:
            xs += [q[0] for q in r]
            ys += [q[1] for q in r]
            if len(r) >= 3 and r[0] == r[-1]:
                area[layer] = area.get(layer, 0) + ring_area(r)
                closed[layer] = closed.get(layer, 0) + 1
    return {
        "Units": 0,
        "Errors": [line for line in out.stderr.splitlines() if line.strip()],
        "Area": area, "Closed": closed,
        "Min": [min(xs), min(ys)] if xs else [0, 0], "Max": [max(xs), max(ys)] if xs else [0, 0],
    }


print(json.dumps([read(path) for path in sys.argv[1:]]))
