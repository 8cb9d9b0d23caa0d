"""Reads DXF files with ezdxf, audits them, and says what they hold as JSON.

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


def outline_area(points):
    """Area of a closed outline of (x, y, bulge)."""
    a = 0.0
    x0, y0 = points[0][0], points[0][1]
    for (x, y, b), (u, v, _) in zip(points, points[1:] + points[:1]):
        a += ((x - x0) * (v - y0) - (u - x0) * (y - y0)) / 2
        if b:
            sweep = 4 * math.atan(b)
            r = math.hypot(u - x, v - y) / (2 * math.sin(sweep / 2))
            a += r * r / 2 * (sweep - math.sin(sweep))
    return abs(a)


def read(path):
    messages.clear()
    ezdxf.readfile(path)  # strict: raises on a broken structure
    doc, audit = recover.readfile(path)
    area, closed = {}, {}
    for e in doc.modelspace():
        kind, layer = e.dxftype(), e.dxf.layer
        if kind == "LWPOLYLINE" and e.closed:
            a = outline_area([tuple(p) for p in e.get_points("xyb")])
        elif kind == "POLYLINE" and e.is_closed:
            a = outline_area([(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in e.vertices])
        elif kind == "CIRCLE":
            a = math.pi * e.dxf.radius**2
        else:
            continue
        area[layer] = area.get(layer, 0) + a
        closed[layer] = closed.get(layer, 0) + 1
    box = bbox.extents((e for e in doc.modelspace() if e.dxftype() != "TEXT"), flatten=0.0005)
    return {
        "Units": doc.units,
        "Errors": messages + ["error: " + e.message for e in audit.errors] + ["repair: " + e.message for e in audit.fixes],
        "Area": area, "Closed": closed,
        "Min": list(box.extmin)[:2] if box.has_data else [0, 0],
        "Max": list(box.extmax)[:2] if box.has_data else [0, 0],
    }


print(json.dumps([read(path) for path in sys.argv[1:]]))
