"""Reports to the first run of low ones, and robust estimates, a second time with NumPy and SciPy.

The chain: speeds in equal cells on either side of the trip speed, the chance of a step from a cell's middle into a cell
from the normal distribution function, every run length a block of one large system, and three cell widths extrapolated
(the error is a series in the square of the width). The estimates: from SciPy's own functions where it has them.

Usage: statistics.py CHAIN RECORDING; CHAIN has lines of a r e k, RECORDING one report a line, 1 s apart.
Prints lines of name and value. Exit code 3: no SciPy.
"""

import sys

try:
    import numpy as np
    from scipy.stats import median_abs_deviation, norm, theilslopes
except ImportError as missing:
    print(missing, file=sys.stderr)
    sys.exit(3)

WIDTH = 0.16


def chain(a, r, e, k, split):
    step = np.sqrt(1 - r * r)
    bottom, top = min(a, 0) - 8, max(a, 0) + 8
    below = np.linspace(bottom, a, 1 + split * int(np.ceil((a - bottom) / WIDTH)))
    above = np.linspace(a, top, 1 + split * int(np.ceil((top - a) / WIDTH)))
    edges = np.concatenate([below, above[1:]])
    middle = (edges[1:] + edges[:-1]) / 2
    n = len(middle)
    low = np.where(np.arange(n) < len(below) - 1, 1.0, e)
    into = np.diff(norm.cdf((edges[None, :] - r * middle[:, None]) / step), axis=1)
    into /= into.sum(axis=1, keepdims=True)
    system = np.eye(n * k)
    for j in range(k):
        rows = slice(j * n, (j + 1) * n)
        system[rows, :n] -= into * (1 - low)
        if j + 1 < k:
            system[rows, (j + 1) * n : (j + 2) * n] -= into * low
    h = np.linalg.solve(system, np.ones(n * k))[:n]
    start = np.diff(norm.cdf(edges))
    return start @ h / start.sum()


def extrapolated(a, r, e, k):
    coarse, middle, fine = (chain(a, r, e, k, split) for split in (1, 2, 4))
    return fine + (fine - middle) / 3 + ((fine - middle) - (middle - coarse) / 4) * 4 / 45


def estimates(x):
    turning = x[x > 0]
    cut = 6 * median_abs_deviation(turning, scale=1 / 1.4826)
    kept = (x > 0) & (np.abs(x - np.median(turning)) <= cut)
    rest = x[kept]
    distance = x - rest.mean()
    pairs = kept[1:] & kept[:-1]
    yield "mean", np.median(rest)
    yield "deviation", 1.4826 * median_abs_deviation(rest)
    yield "correlation", np.mean((distance[1:] * distance[:-1])[pairs]) / rest.var()
    yield "outliers", 1 - len(rest) / len(x)
    hours = np.arange(len(x))[kept] / 3600
    blocks = [np.arange(len(rest) * b // 200, len(rest) * (b + 1) // 200) for b in range(200)]
    line = theilslopes([np.mean(rest[b]) for b in blocks], [np.mean(hours[b]) for b in blocks])
    yield "slope", line[0]
    short = theilslopes(rest[:150], hours[:150], alpha=0.99)
    yield "short_slope", short[0]
    yield "short_intercept", short[1]
    yield "short_low", short[2]
    yield "short_high", short[3]


for line in open(sys.argv[1]):
    a, r, e, k = line.split()
    print("chain", a, r, e, k, repr(float(extrapolated(float(a), float(r), float(e), int(k)))))
for name, value in estimates(np.loadtxt(sys.argv[2])):
    print(name, repr(float(value)))
