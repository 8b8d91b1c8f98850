"""Ellipses through points, by scikit-image and SciPy.

Reads [[[x, y], …], …], one list of points for each picture, and writes for each
the ellipse of least squares of the conic (scikit-image's EllipseModel), that of
least distances, found by moving the ellipse and the nearest point's angle on it
for all points together, and the distances from the latter, unsigned. An ellipse
is [x, y, a, b, turn]; null where there is none.
"""
import json
import sys

import numpy
from scipy.optimize import least_squares
from skimage.measure import EllipseModel


def on(ellipse, angles):
    x, y, a, b, turn = ellipse
    along, across = a * numpy.cos(angles), b * numpy.sin(angles)
    return numpy.stack([x + along * numpy.cos(turn) - across * numpy.sin(turn), y + along * numpy.sin(turn) + across * numpy.cos(turn)], 1)


def nearest(start, points):
    x, y, a, b, turn = start
    dx, dy = points[:, 0] - x, points[:, 1] - y
    angles = numpy.arctan2((numpy.cos(turn) * dy - numpy.sin(turn) * dx) / b, (numpy.cos(turn) * dx + numpy.sin(turn) * dy) / a)
    found = least_squares(lambda v: (on(v[:5], v[5:]) - points).ravel(), numpy.concatenate([start, angles]), x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    return found.x[:5], numpy.linalg.norm(on(found.x[:5], found.x[5:]) - points, axis=1)


def picture(points):
    points = numpy.array(points)
    middle = points.mean(0)  # far from the origin EllipseModel loses digits
    points = points - middle
    model = EllipseModel()
    if not model.estimate(points):
        return None
    ellipse, distances = nearest(numpy.array(model.params), points)
    back = numpy.concatenate([middle, [0, 0, 0]])
    return {"direct": list(model.params + back), "nearest": list(ellipse + back), "distances": list(distances)}


json.dump([picture(p) for p in json.load(sys.stdin)], sys.stdout)
