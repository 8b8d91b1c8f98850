"""Distributions, least squares and posteriors, by SciPy.

Reads a list of questions, each {"ask": KIND, …}, and writes a list of answers:

normal    {z, mean, sigma, p}                 [Φ(z), Φ⁻¹(p), ln density at z]
student   {t, nu}                             P(T ≤ t)
rates     {starts, minutes, depths, at}       two rates ≥ 0 by non-negative least
                                              squares, and half the 90 % interval of
                                              one more reading at [starts, minutes],
                                              null if a rate is 0
factor    {cuts: [[speed, most, verdict]]}    median, 5 % and 95 % of a rig's factor
strips    {plan, most, calibration, length,   the same after trial strips, then the
           strips: [[time, verdict, kerf]]}   next speed and the mean kerf or 0
"""
import json
import sys

import numpy
from scipy import integrate, optimize, special, stats

# The law of the rig's factor c, as the calculator's text states it: ln c is normal
# about 0, the hand strays by a tenth, and these shares of c × the reckoned speed
# part the verdicts. A slip of the finger must not rule anything out.
BEFORE = stats.norm(0, numpy.log(1.36))
HAND = 0.10
EDGES = {"too-slow": (0, 0.5), "good": (0.5, 0.9), "too-fast": (0.9, 1), "did-not-sever": (1, numpy.inf)}
SLIP = 1e-12
GRID = numpy.linspace(-2, 2, 8001)


def factor(cuts):
    log = BEFORE.logpdf(GRID)
    for speed, most, verdict in cuts:
        low, high = (numpy.log(edge) if edge else -numpy.inf for edge in EDGES[verdict])
        share = numpy.log(speed / most) - GRID
        log += numpy.log(special.ndtr((high - share) / HAND) - special.ndtr((low - share) / HAND) + SLIP)
    below = integrate.cumulative_trapezoid(numpy.exp(log - log.max()), GRID, initial=0)
    return list(numpy.exp(numpy.interp(numpy.array([0.5, 0.05, 0.95]) * below[-1], below, GRID)))


def strips(q):
    cut = [s for s in q["strips"] if s[0] > 0]
    found = factor([(q["length"] / time, q["most"] / q["calibration"], verdict) for time, verdict, _ in cut])
    kerfs = [kerf for _, _, kerf in q["strips"] if kerf > 0]
    faster = found[0] / q["calibration"] if cut else 1
    return found + [q["plan"] * faster, float(numpy.mean(kerfs)) if kerfs else 0]


def rates(q):
    columns = numpy.column_stack([q["starts"], q["minutes"]]).astype(float)
    depths = numpy.array(q["depths"])
    found, _ = optimize.nnls(columns, depths)
    if not found.all():
        return list(found) + [None]  # a rate at its bound has no range of this kind
    _, spread = optimize.curve_fit(lambda x, a, b: x @ [a, b], columns, depths, p0=found)
    at = numpy.array(q["at"], dtype=float)
    free = len(depths) - 2
    variance = numpy.sum((depths - columns @ found) ** 2) / free
    return list(found) + [stats.t.ppf(0.95, free) * numpy.sqrt(variance + at @ spread @ at)]


answers = {
    "normal": lambda q: [stats.norm.cdf(q["z"]), stats.norm.ppf(q["p"]), stats.norm.logpdf(q["z"], q["mean"], q["sigma"])],
    "student": lambda q: stats.t.cdf(q["t"], q["nu"]),
    "rates": rates,
    "factor": lambda q: factor(q["cuts"]),
    "strips": strips,
}
json.dump([answers[q["ask"]](q) for q in json.load(sys.stdin)], sys.stdout)
