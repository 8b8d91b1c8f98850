"""Outlines by the geometry library Shapely.

Reads [[[x, y], …], …] and writes for each outline [area, x, y] with the place
where it balances, or null for one that crosses itself.
"""
import json
import sys

from shapely.geometry import LinearRing, Polygon


def outline(corners):
    if not LinearRing(corners).is_simple:
        return None
    piece = Polygon(corners)
    return [piece.area, piece.centroid.x, piece.centroid.y]


json.dump([outline(corners) for corners in json.load(sys.stdin)], sys.stdout)
