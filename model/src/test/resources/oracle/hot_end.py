"""The heat equations of a hot end, written a second time: uniform grid, central differences, SciPy's LSODA.

Prints lines "build key value" for three builds of one sheet (titanium, stainless, two-metal): SI units, kelvin.
Nothing here is taken from the Java code; the equations are those of the model's page. Needs python3-numpy and
python3-scipy.
"""

import sys

try:
    import numpy as np
    from scipy.integrate import LSODA
    from scipy.optimize import brentq
    from scipy.special import iv, kv
except ImportError as missing:
    print(missing, file=sys.stderr)
    sys.exit(3)

PI = np.pi
ZERO = 273.15
DX = 1e-4


def metal(name):
    return {
        "aluminium": (167.0, 2700.0, 896.0),
        "copper": (391.0, 8940.0, 385.0),
        "stainless": (16.6, 8000.0, 500.0),
        "titanium": (8.0, 4430.0, 550.0),
    }[name]


def ring(outer, inner):
    return PI / 4 * (outer**2 - inner**2)


class Air:
    cp = 1006.0

    def __init__(self, t, p=101325.0):
        self.mu = 1.716e-5 * (t / 273.15) ** 1.5 * 383.55 / (t + 110.4)
        self.k = 0.0241 * (t / 273.15) ** 1.5 * 467.15 / (t + 194)
        self.rho = p / (287.05 * t)
        self.pr = self.mu * self.cp / self.k


class Cold:
    """Sink and fan: conductance to the air."""

    def __init__(self, air):
        self.air = air
        self.length, self.fins, self.thick, self.fin_d, self.core = 24e-3, 10, 1e-3, 20e-3, 9e-3
        self.q0, self.p0, self.tip, self.hub, self.share, self.tau = 1.7e-3, 35.0, 28e-3, 16e-3, 0.6, 0.8
        self.emissivity, self.still_share, self.mount, self.duct = 0.8, 0.8, 0.01, 1.0
        self.envelope = PI * self.fin_d * self.length + PI * self.fin_d**2 / 4

    def speed(self, t):
        return 1 / (1 + t / self.tau)

    def flow(self, s):
        a = Air(self.air)
        gap = self.length / self.fins - self.thick
        dh, path = 2 * gap, PI * self.fin_d / 4
        channel = self.fins * gap * (self.fin_d - self.core)
        tip = PI / 4 * self.tip**2
        annulus = tip - PI / 4 * self.hub**2

        def missing(q):
            v = self.share * q / channel
            re = a.rho * v * dh / a.mu
            fins = 0.5 * a.rho * v**2 * (1.5 + 0.674 + 4 * (24 / re) * path / dh)
            hub = 0.5 * a.rho * (q / annulus) ** 2 * (1 - annulus / tip) ** 2
            duct = 0.5 * a.rho * (q / tip) ** 2 * self.duct
            return self.p0 * s**2 * (a.rho / 1.2) * (1 - q / (self.q0 * s)) - fins - hub - duct

        return brentq(missing, 1e-9 * s, self.q0 * s, xtol=1e-15, rtol=1e-13)

    def forced(self, s):
        if s < 1e-6:
            return 0.0
        a = Air(self.air)
        q = self.flow(s)
        gap = self.length / self.fins - self.thick
        dh, path = 2 * gap, PI * self.fin_d / 4
        v = self.share * q / (self.fins * gap * (self.fin_d - self.core))
        re = a.rho * v * dh / a.mu
        x = path / (dh * re * a.pr)
        nu = 7.55 + 0.024 * x**-1.14 / (1 + 0.0358 * a.pr**0.17 * x**-0.64)
        h = nu * a.k / dh
        r1, r2 = self.core / 2, self.fin_d / 2 + self.thick / 2
        m = np.sqrt(2 * h / (metal("aluminium")[0] * self.thick))
        eta = (
            2 * r1 / (m * (r2**2 - r1**2))
            * (kv(1, m * r1) * iv(1, m * r2) - iv(1, m * r1) * kv(1, m * r2))
            / (iv(0, m * r1) * kv(1, m * r2) + kv(0, m * r1) * iv(1, m * r2))
        )
        fin_area = self.fins * 2 * PI * (r2**2 - r1**2)
        bare = PI * self.core * (self.length - self.fins * self.thick)
        stream = a.rho * self.share * q * a.cp
        return stream * (1 - np.exp(-h * (eta * fin_area + bare) / stream))

    def table(self):
        """Forced conductance against speed, tabulated once: it depends on nothing else."""
        self.speeds = np.concatenate(([0.0], np.geomspace(3e-4, 1.0, 600)))
        self.forced_values = np.array([self.forced(s) for s in self.speeds])

    def conductance(self, s, t_sink):
        film = Air(0.5 * (t_sink + self.air))
        nu_visc = film.mu / film.rho
        alpha = film.k / (film.rho * film.cp)
        beta = 2 / (t_sink + self.air)
        ra = 9.80665 * beta * abs(t_sink - self.air) * self.length**3 / (nu_visc * alpha)
        nu = 0.68 + 0.670 * ra**0.25 / (1 + (0.492 / film.pr) ** (9 / 16)) ** (4 / 9)
        still = self.still_share * nu * film.k / self.length * self.envelope
        forced = np.interp(s, self.speeds, self.forced_values)
        radiation = (
            self.emissivity * 5.670374419e-8 * self.envelope * (t_sink + self.air) * (t_sink**2 + self.air**2)
        )
        return (forced**3 + still**3) ** (1 / 3) + radiation + self.mount


class HotEnd:
    def __init__(self, neck_metal, neck_d, shank_metal):
        self.air, self.nozzle = 25 + ZERO, 235 + ZERO
        self.cold = Cold(self.air)
        self.cold.table()
        bore, rod, neck, shank_d, shank, contact = 2e-3, 1.75e-3, 2.1e-3, 6e-3, 8e-3, 5000.0
        self.soft, self.limit = 60 + ZERO, 3e-3
        self.cb, self.gb, self.gbs = 12.0, 0.06, 0.005
        k_f, rho_f, c_f = 0.18, 1240.0, 1300.0
        k_n, rho_n, c_n = metal(neck_metal)
        k_s, rho_s, c_s = metal(shank_metal)
        k_a, rho_a, c_a = metal("aluminium")
        cold = self.cold
        self.n = round((neck + cold.length) / DX)
        self.i_neck = round(neck / DX)
        self.i_shank = round((neck + shank) / DX)
        self.x = (np.arange(self.n) + 0.5) * DX
        in_neck = np.arange(self.n) < self.i_neck
        over_shank = (np.arange(self.n) >= self.i_neck) & (np.arange(self.n) < self.i_shank)
        self.wall = np.arange(self.n) < self.i_shank
        self.sink = ~in_neck
        area_wall = np.where(in_neck, ring(neck_d, bore), ring(shank_d, bore))
        k_wall = np.where(in_neck, k_n, k_s)
        self.wall_c = np.where(in_neck, rho_n * c_n, rho_s * c_s) * area_wall * DX
        core = np.where(over_shank, ring(cold.core, shank_d), ring(cold.core, bore))
        fins = cold.fins * cold.thick * ring(cold.fin_d, cold.core) / cold.length
        self.sink_c = rho_a * c_a * (core + fins) * DX
        area_rod = PI / 4 * rod**2
        self.rod_c = rho_f * c_f * area_rod * DX
        self.rho_c_area = rho_f * c_f * area_rod
        self.area_rod = area_rod

        def between(ka, exists):
            half = np.where(exists, 0.5 * DX / ka, np.inf)
            return 1 / (half[:-1] + half[1:])

        self.wall_link = between(k_wall * area_wall, self.wall)
        self.sink_link = between(k_a * core, self.sink)
        self.rod_link = k_f * area_rod / DX
        e = 0.8 * (bore - rod) / 2
        k_air = Air(80 + ZERO).k
        self.g_wf = DX / (
            1 / (8 * PI * k_f) + np.arccosh((bore**2 + rod**2 - 4 * e**2) / (2 * bore * rod)) / (2 * PI * k_air)
        )
        seat = 1 / (contact * PI * shank_d)
        half = np.log(2 * shank_d / (shank_d + bore)) / (2 * PI)
        sink_half = np.log((cold.core + shank_d) / (2 * shank_d)) / (2 * PI * k_a)
        self.g_sc = np.where(over_shank, DX / (seat + half / k_s + sink_half), 0.0)
        threads = 1 / np.sqrt(k_n * ring(shank_d, bore) / (seat + half / k_n))
        self.block_wall = 1 / (threads + 0.5 * DX / (k_n * ring(neck_d, bore)))
        self.throat_low = k_n * ring(neck_d, bore)
        self.throat_high = k_s * ring(shank_d, bore)

    # state: block, then wall, sink and rod of each cell in turn, so that the Jacobian is nearly a band
    def split(self, y):
        cells = y[1:].reshape(self.n, 3)
        return y[0], cells[:, 0], cells[:, 1], cells[:, 2]

    def rate(self, t, y, feed, heated, healthy=False):
        block, w, s, f = self.split(y)
        mean = s[self.sink].mean()
        ua = self.cold.conductance(1.0 if healthy else self.cold.speed(t), mean)
        n_sink = self.n - self.i_neck
        carried = self.rho_c_area * feed / self.area_rod
        q_w = np.zeros(self.n)
        q_s = np.zeros(self.n)
        q_f = np.zeros(self.n)
        into_wall = self.block_wall * (block - w[0])
        q_w[0] += into_wall
        link = self.wall_link * (w[:-1] - w[1:])
        q_w[:-1] -= link
        q_w[1:] += link
        link = self.sink_link * (s[:-1] - s[1:])
        q_s[:-1] -= link
        q_s[1:] += link
        over = self.g_sc * (w - s)
        q_w -= over
        q_s += over
        beside = self.g_wf * (np.where(self.wall, w, s) - f)
        q_w -= np.where(self.wall, beside, 0)
        q_s -= np.where(self.wall, 0, beside)
        q_f += beside
        q_s[self.sink] += (self.gbs * (block - mean) - ua * (s[self.sink] - self.air)) / n_sink
        link = self.rod_link * (f[:-1] - f[1:])
        q_f[:-1] -= link
        q_f[1:] += link
        into_rod = 2 * self.rod_link * (block - f[0])
        q_f[0] += into_rod
        # moving down: what passes each face is the mean of its two cells; at the block the last cell's own
        face = np.empty(self.n + 1)
        face[0] = f[0]
        face[1:-1] = 0.5 * (f[:-1] + f[1:])
        face[-1] = self.air
        q_f += carried * (face[1:] - face[:-1])
        out = np.empty_like(y)
        self.into_wall = into_wall
        demand = into_wall + into_rod + carried * (block - f[0]) + self.gbs * (block - mean) + self.gb * (block - self.air)
        out[0] = 0.0 if heated else -demand / self.cb
        cells = out[1:].reshape(self.n, 3)
        cells[:, 0] = np.where(self.wall, q_w / self.wall_c, 0)
        cells[:, 1] = np.where(self.sink, q_s / self.sink_c, 0)
        cells[:, 2] = q_f / self.rod_c
        return out

    def run(self, y, t, end, feed, heated, see, healthy=False):
        """Advances; ends early if see(t, y) returns False."""
        solver = LSODA(
            lambda tt, yy: self.rate(tt, yy, feed, heated, healthy),
            t, y, end, rtol=1e-6, atol=1e-4, lband=4, uband=4, max_step=20.0 if not healthy else np.inf,
        )
        while solver.status == "running":
            before_t, before_y = solver.t, solver.y.copy()
            solver.step()
            if not see(before_t, before_y, solver):
                break
        if solver.status == "failed":
            raise RuntimeError("LSODA failed at %g s" % solver.t)
        return solver.t, solver.y.copy()

    def steady(self, feed):
        y = np.full(1 + 3 * self.n, self.air)
        y[0] = self.nozzle
        return self.run(y, 0.0, 5000.0, feed, True, lambda *_: True, healthy=True)[1]

    def rod_at(self, f, height):
        return np.interp(self.cold_from() + height, self.x, f)

    def cold_from(self):
        return self.i_neck * DX

    def depth(self, f):
        heights = np.concatenate(([0.0], self.x[self.i_neck:] - self.cold_from()))
        values = np.concatenate(([self.rod_at(f, 0)], f[self.i_neck:]))
        cold = np.nonzero(values < self.soft)[0]
        if len(cold) == 0:
            return self.cold.length
        if cold[0] == 0:
            return 0.0
        i = cold[0]
        share = (values[i - 1] - self.soft) / (values[i - 1] - values[i])
        return heights[i - 1] + share * (heights[i] - heights[i - 1])

    def excess(self, f):
        inside = f[(self.x > self.cold_from()) & (self.x < self.cold_from() + self.limit)]
        return min(self.rod_at(f, 0), self.rod_at(f, self.limit), inside.min()) - self.soft


def softening(hot, y, feed):
    found = []

    def see(t, before, solver):
        if hot.excess(hot.split(solver.y)[3]) > 0:
            now, dense = solver.t, solver.dense_output()
            found.append(brentq(lambda m: hot.excess(hot.split(dense(m))[3]), t, now, xtol=1e-3))
            return False
        return True

    hot.run(y, 0.0, 1800.0, feed, True, see)
    return found[0] if found else float("inf")


def course(hot, y, feed, at, end):
    """Filament at the throat every 10 s, largest excess and depth, with [hold, heater-off] at a moment."""
    rows, peak = [], [-np.inf, 0.0]
    marks = np.arange(0, end + 1, 10.0)

    def see(t, before, solver):
        dense = None
        for mark in marks[(marks > t) & (marks <= solver.t)]:
            dense = dense or solver.dense_output()
            rows.append((mark, hot.rod_at(hot.split(dense(mark))[3], 0)))
        f = hot.split(solver.y)[3]
        if solver.t >= at:
            peak[0] = max(peak[0], hot.excess(f))
        peak[1] = max(peak[1], hot.depth(f))
        return True

    t, z = hot.run(y, 0.0, at, feed, True, see)
    hot.run(z, t, end, 0.0, False, see)
    return rows, peak


def main():
    builds = {
        "titanium": HotEnd("titanium", 3e-3, "titanium"),
        "stainless": HotEnd("stainless", 3e-3, "stainless"),
        "two-metal": HotEnd("stainless", 2.5e-3, "copper"),
    }
    for name, hot in builds.items():
        for regime, feed in (("printing", 5e-9), ("hot-idle", 0.0)):
            def say(key, value):
                print(name, regime, key, repr(float(value)))

            y = hot.steady(feed)
            hot.rate(0.0, y, feed, True, healthy=True)
            block, w, s, f = hot.split(y)
            say("heat_flow", hot.into_wall)
            i = hot.i_neck
            say("throat", (hot.throat_low * w[i - 1] + hot.throat_high * w[i]) / (hot.throat_low + hot.throat_high))
            say("sink", s[hot.sink].mean())
            say("filament_at_throat", hot.rod_at(f, 0))
            say("softened_depth", hot.depth(f))
            say("conductance", hot.cold.conductance(1.0, s[hot.sink].mean()))
            say("air_flow", hot.cold.flow(1.0))
            say("softens", softening(hot, y, feed))
            rows, peak = course(hot, y, feed, 30.0, 330.0)
            for mark, value in rows:
                say("at_%d" % mark, value)
            say("largest_excess", peak[0])
            say("largest_depth", peak[1])


if __name__ == "__main__":
    main()
