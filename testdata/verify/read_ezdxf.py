"""Reads a DXF with ezdxf, audits it, and says what it holds as JSON.

Areas and extents are computed here from ezdxf's own entities, arcs exactly.
"""
import json
import logging
import math
import sys

import ezdxf
from ezdxf import bbox, recover

messages = []


class Keep(logging.Handler):
    def emit(self, record):
        messages.append(record.getMessage())


logging.getLogger("ezdxf").addHandler(Keep(logging.WARNING))
logging.getLogger("ezdxf").propagate = False

path = sys.argv[1]
ezdxf.readfile(path)  # strict: raises on a broken structure
doc, audit = recover.readfile(path)
area, closed = {}, {}


def outline(layer, points):
    """Adds a closed outline of (x, y, bulge)."""
    a = 0.0
    for (x, y, b), (u, v, _) in zip(points, points[1:] + points[:1]):
        a += (x * v - u * y) / 2
        if b:
            sweep = 4 * math.atan(b)
            r = math.hypot(u - x, v - y) / (2 * math.sin(sweep / 2))
            a += r * r / 2 * (sweep - math.sin(sweep))
    area[layer] = area.get(layer, 0) + abs(a)
    closed[layer] = closed.get(layer, 0) + 1


for e in doc.modelspace():
    kind, layer = e.dxftype(), e.dxf.layer
    if kind == "LWPOLYLINE" and e.closed:
        outline(layer, [tuple(p) for p in e.get_points("xyb")])
    elif kind == "POLYLINE" and e.is_closed:
        outline(layer, [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in e.vertices])
    elif kind == "CIRCLE":
        area[layer] = area.get(layer, 0) + math.pi * e.dxf.radius**2
        closed[layer] = closed.get(layer, 0) + 1

box = bbox.extents((e for e in doc.modelspace() if e.dxftype() != "TEXT"), flatten=0.0005)
errors = messages + ["error: " + e.message for e in audit.errors] + ["repair: " + e.message for e in audit.fixes]
print(json.dumps({
    "Program": "ezdxf " + ezdxf.__version__, "Units": doc.units, "Errors": errors, "Area": area, "Closed": closed,
    "Min": list(box.extmin)[:2] if box.has_data else [0, 0],
    "Max": list(box.extmax)[:2] if box.has_data else [0, 0],
}))
