"""A cut along a guide, laid out and cut by the geometry library Shapely.

Reads [{cup, kerf, hole, shape, template, arm}, …] (lengths in mm; shape is
straight, outside or inside; hole: the piece under the guide, or the disc, is waste)
and writes where the kept edge comes out: its distance from a straight guide, or
its radius along the template and by the circle arm, and how far it lies from the
template.
"""
import json
import math
import sys

from shapely.geometry import LineString, Point, Polygon

FINE = 256  # segments of a quarter circle; a radius by area is then good to 4 in a million
FLAT = 2  # the kerf ends as it began, square


def straight(q):
    guide = LineString([(-500, 0), (500, 0)])
    kerf = guide.parallel_offset(q["cup"] / 2, "left").buffer(q["kerf"] / 2, cap_style=FLAT)
    return kerf.bounds[3] if q["hole"] else guide.distance(kerf)


def kept(path, q):
    """The radius of the piece that is kept when the torch follows a closed path."""
    kerf = path.buffer(q["kerf"] / 2, FINE)
    edge = kerf.exterior if q["hole"] else kerf.interiors[0]
    return math.sqrt(Polygon(edge).area / math.pi)


def disc(radius):
    return Point(0, 0).buffer(radius, FINE)


def cut(q):
    if q["shape"] == "straight":
        return [straight(q)]
    cup = q["cup"] / 2 if q["shape"] == "outside" else -q["cup"] / 2
    by_template = kept(disc(q["template"]).buffer(cup, FINE).exterior, q)
    return [by_template, kept(disc(q["arm"]).exterior, q), abs(by_template - q["template"])]


json.dump([cut(q) for q in json.load(sys.stdin)], sys.stdout)
