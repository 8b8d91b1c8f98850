"""Drawings by ezdxf, a library that reads and checks interchange files.

Reads a list of files as texts and writes for each {"version": …, "errors": […],
"lines": [{"layer", "closed", "points": [[x, y], …]}, …], "circles": [{"layer", "at", "r"}, …],
"texts": [text, …]}.
"""
import io
import json
import sys

import ezdxf

told = []
for text in json.load(sys.stdin):
    drawing = ezdxf.read(io.StringIO(text.replace("\r\n", "\n")))
    audit = drawing.audit()
    space = drawing.modelspace()
    told.append({
        "version": drawing.dxfversion,
        "errors": [str(e) for e in audit.errors],
        "lines": [{"layer": line.dxf.layer, "closed": bool(line.is_closed), "points": [list(p)[:2] for p in line.points()]} for line in space.query("POLYLINE")],
        "circles": [{"layer": c.dxf.layer, "at": list(c.dxf.center)[:2], "r": c.dxf.radius} for c in space.query("CIRCLE")],
        "texts": [t.dxf.text for t in space.query("TEXT")],
    })
json.dump(told, sys.stdout)
