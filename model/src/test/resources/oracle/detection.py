"""Detection of a failing fan, a second time: cells of equal width in z, masses by the normal distribution function, the
phase by the midpoint rule. Lines in: name mu sigma r e failure parameter speed k window; lines out: name_p50, name_p99."""
import sys

try:
    import numpy as np
    from scipy.integrate import quad
    from scipy.optimize import brentq
    from scipy.stats import norm
except ImportError:
    print("scipy is missing", file=sys.stderr)
    sys.exit(3)


def speed(failure, parameter, t):
    if t < 0:
        return 1.0
    if failure == "stop":
        return parameter / (parameter + t) if parameter > 0 else 0.0
    if failure == "slow":
        return parameter
    return max(0.0, 1 - t / parameter)


def mean(failure, parameter, end, window):
    begin = end - window
    before = max(0.0, min(end, 0.0) - begin) if begin < 0 else 0.0
    after = quad(lambda t: speed(failure, parameter, t), max(begin, 0), max(end, 0), epsabs=1e-12)[0]
    return (before + after) / window


for line in open(sys.argv[1]):
    name, mu, sigma, r, e, failure, parameter, s, k, window = line.split()
    mu, sigma, r, e, parameter, s, window = map(float, (mu, sigma, r, e, parameter, s, window))
    k = int(k)
    edges = np.linspace(-6.5, 6.5, 521)
    middle = (edges[1:] + edges[:-1]) / 2
    step = np.sqrt(1 - r * r)
    move = np.diff(norm.cdf((edges[None, :] - r * middle[:, None]) / step), axis=1)
    start = np.diff(norm.cdf(edges))
    phases = (np.arange(100) + 0.5) / 100 * window
    f = [np.zeros((len(phases), len(middle))) for _ in range(k)]
    f[0][:] = start
    done = [np.zeros(len(phases))]
    n = 0
    while done[-1].min() < 1 - 1e-6 and n < 400:
        a = np.array([(s - mu * mean(failure, parameter, p + n * window, window)) / sigma for p in phases])
        below = np.clip((a[:, None] - edges[None, :-1]) / (edges[1] - edges[0]), 0, 1)
        low = e + (1 - e) * below
        done.append(done[-1] + (f[-1] * low).sum(axis=1))
        high = sum(g * (1 - low) for g in f) @ move
        f = [high] + [(g * low) @ move for g in f[:-1]]
        n += 1
    done = np.array(done)

    def chance(t):
        m = int(t // window)
        by = np.where(phases <= t - m * window, done[min(m + 1, n)], done[min(m, n)])
        return by.mean()

    for q in (0.5, 0.99):
        print(f"{name}_p{int(100 * q)}", brentq(lambda t: chance(t) - q, 0, n * window, xtol=1e-6))
