"""Wheel forces a second way: enumeration, non-negative least squares and a general-purpose optimiser.

Balance of a rigid body on three or more contacts, from the equations of statics; mm, N, kg.
"""

import numpy as np
from scipy.optimize import minimize, nnls

G = 9806.65  # mm/s^2
NEWTON = 1e-3  # N per kg mm/s^2


class Road:
    """Contacts and masses of a case under one load, as scaled by s."""

    def __init__(self, case, load, scale):
        """Accelerations, lean and body force per unit mass for the load scaled by `scale`."""
        self.case, self.load = case, load
        self.ax = scale * (load.driving - load.braking)
        self.ay = scale * load.cornering
        self.p = np.sign(self.ay) * min(case.leaning, np.arctan(abs(self.ay) / G))
        v, p = load.vertical * G, self.p
        self.f = NEWTON * np.array(
            [-self.ax, -self.ay * np.cos(p) + v * np.sin(p), -self.ay * np.sin(p) - v * np.cos(p)]
        )
        points = {q.name: np.array(q.at) for q in case.points}
        self.on = [w for w in case.wheels if w.name not in load.off_ground]
        self.contacts = [points[w.centre] - np.array([0, 0, w.radius]) for w in self.on]
        self.tows = [points[t.at] for t in case.tows]
        self.level = self.contacts[0][2]
        self.m = np.array([q.mass for q in case.masses])
        self.r = np.array([q.at for q in case.masses], dtype=float)

    def equations(self):
        """Matrix and right side of the three equations for Z of wheels, then of tows."""
        total = -self.m.sum() * self.f
        share = total[1] / total[2]
        brakes = [w.braked if self.ax < 0 else w.driven for w in self.on]
        tow_x = total[0] if not any(brakes) else 0.0
        rows, right = np.zeros((3, len(self.on) + len(self.tows))), np.zeros(3)
        for k, c in enumerate(self.contacts + self.tows):
            height = c[2] - self.level if k >= len(self.on) else 0.0
            rows[:, k] = 1.0, c[1] - height * share, -c[0]
        right[0] = total[2]
        for mass, place in zip(self.m, self.r, strict=True):
            arm = place - np.array([0, 0, self.level])
            moment = np.cross(arm, mass * self.f)
            right[1] -= moment[0]
            right[2] -= moment[1]
        for c in self.tows:
            right[2] -= (c[2] - self.level) * tow_x
        return rows, right

    def flat(self):
        """The same on the flat road: the leaned body's masses over the contacts."""
        c, s = np.cos(self.p), np.sin(self.p)
        rows = np.array([[1.0, q[1] / c, -q[0]] for q in self.contacts]).T
        right = np.array([NEWTON * self.m.sum() * self.load.vertical * G, 0.0, 0.0])
        for mass, (x, y, z) in zip(self.m, self.r, strict=True):
            h = z - self.level
            across, high = y * c + h * s, h * c - y * s
            weight = NEWTON * mass * self.load.vertical * G
            right[1] += across * weight - high * NEWTON * mass * self.ay
            right[2] += -x * weight + high * NEWTON * mass * self.ax
        return rows, right

    def stands(self):
        """Whether both balances have a set of Z that no wheel pulls with."""
        systems = [self.equations()]
        if not self.tows:
            systems.append(self.flat())
        size = np.array([1.0, 300.0, 300.0])
        for rows, right in systems:
            scaled = rows / size[:, None]
            # a contact that may pull too is a column of either sign
            scaled = np.hstack([scaled, -scaled[:, len(self.on) :]])
            _, left = nnls(scaled, right / size / right[0])
            if left > 1e-11:
                return False
        return True


def tips_at(case, load, steps=400):
    """Largest s such that all s' <= s stand."""
    low = 0.0
    for s in np.linspace(0.0, 1.0, steps + 1):
        if not Road(case, load, s).stands():
            high = s
            for _ in range(40):
                mid = (low + high) / 2
                low, high = (mid, high) if Road(case, load, mid).stands() else (low, mid)
            return low
        low = s
    return 1.0


def least_squares_z(rows, right, free):
    """Z of least sum of squares with the first ones not negative: enumerate who lifts."""
    best = None
    n, wheels = rows.shape[1], rows.shape[1] - free
    for lifted in range(2**wheels):
        keep = [k for k in range(n) if k >= wheels or not lifted >> k & 1]
        if len(keep) < 1:
            continue
        z = np.zeros(n)
        size = np.array([1.0, 300.0, 300.0])
        z[keep], *_ = np.linalg.lstsq(rows[:, keep] / size[:, None], right / size, rcond=1e-12)
        miss = np.abs(rows @ z - right) / size
        if miss.max() > 1e-9 * abs(right[0]) or z[:wheels].min() < -1e-9 * abs(right[0]):
            continue
        if best is None or z @ z < best @ best:
            best = z
    return best


def wheel_forces(case, load, scale=1.0):
    """Names to (X, Y, Z) of wheels and tows, without any strike, at the given scale."""
    road = Road(case, load, scale)
    rows, right = road.equations()
    z = least_squares_z(rows, right, len(road.tows))
    total = -road.m.sum() * road.f
    wheels = len(road.on)
    pulls = np.array([w.braked if road.ax < 0 else w.driven for w in road.on], dtype=float)
    x = np.zeros(z.size)
    if road.ax and pulls.any():
        x[:wheels] = total[0] * pulls * z[:wheels] / (pulls @ z[:wheels])
    elif road.ax:
        x[wheels:] = total[0]
    names = [w.name for w in road.on] + [t.name for t in case.tows]
    found = {n: np.array([x[k], total[1] / total[2] * z[k], z[k]]) for k, n in enumerate(names)}
    for name in load.off_ground:
        found[name] = np.zeros(3)
    return found


def by_optimiser(rows, right, free):
    """Z by a general-purpose optimiser: a third opinion, to its own tolerance."""
    n = rows.shape[1]
    size = np.array([1.0, 300.0, 300.0])
    total = right[0]
    found = minimize(
        lambda z: z @ z,
        np.full(n, 1.0 / n),
        jac=lambda z: 2 * z,
        constraints={"type": "eq", "fun": lambda z: (rows @ z - right / total) / size},
        bounds=[(0, None)] * (n - free) + [(None, None)] * free,
        method="SLSQP",
        options={"ftol": 1e-14, "maxiter": 500},
    )
    return found.x * total


def _wheels_on_points(case, load, balanced, at, put):
    for wheel, pushed in zip(case.wheels, balanced.wheels, strict=True):
        force = np.array(pushed.force)
        c = at[wheel.centre]
        moment = np.cross([0, 0, -wheel.radius], force)
        axle = np.array(wheel.axle) / np.linalg.norm(wheel.axle)
        struck = load.strike is not None and load.strike.wheel == wheel.name
        braking = wheel.braked and balanced.braking > 0 and not struck
        driving = wheel.driven and balanced.driving > 0 and not struck
        if not (braking or driving):
            moment = moment - (moment @ axle) * axle
        if braking and wheel.caliper:
            k = at[wheel.caliper]
            q = (k - c) - ((k - c) @ axle) * axle
            grip = (moment @ axle) * np.cross(axle, q) / (q @ q)
            put(wheel.caliper, grip, np.zeros(3))
            force, moment = force - grip, moment - np.cross(k - c, grip)
        put(wheel.centre, force, moment)


def loads_on_points(case, balanced):
    """Forces and moments at each point (points, 6) and the force of each wheel, for one balanced load.

    `balanced` gives the wheels' and tows' forces; all else is worked out here.
    """
    names = [p.name for p in case.points]
    at = {p.name: np.array(p.at) for p in case.points}
    out = {n: np.zeros(6) for n in names}
    load = next(q for q in case.loads if q.name == balanced.name)

    def put(name, force, moment):
        out[name] += np.concatenate([force, moment])

    _wheels_on_points(case, load, balanced, at, put)
    for tow, pulled in zip(case.tows, balanced.tows, strict=True):
        put(tow.at, np.array(pulled.force), np.zeros(3))
    for hand in load.forces:
        put(hand.at, np.array(hand.force), np.array(hand.moment))

    m = np.array([q.mass for q in case.masses])
    r = np.array([q.at for q in case.masses], dtype=float).reshape(-1, 3)

    def share(mass, force, extra):
        spots = [at[n] for n in mass.carried_by]
        middle = np.mean(spots, axis=0)
        arms = [s - middle for s in spots]
        moment = np.cross(np.array(mass.at) - middle, force) + extra
        s = sum((q @ q) * np.eye(3) - np.outer(q, q) for q in arms)
        t = np.linalg.pinv(s, rcond=1e-9, hermitian=True) @ moment
        for name, q in zip(mass.carried_by, arms, strict=True):
            put(name, force / len(arms) + np.cross(t, q), (moment - s @ t) / len(arms))

    if case.supports:
        v = load.vertical * G
        ay, ax, p = balanced.cornering, balanced.driving - balanced.braking, balanced.lean
        f = np.array([-ax, -ay * np.cos(p) + v * np.sin(p), -ay * np.sin(p) - v * np.cos(p)]) * NEWTON
        for mass in case.masses:
            if mass.carried_by:
                share(mass, mass.mass * f, np.zeros(3))
        return np.array([out[n] for n in names])
    middle = m @ r / m.sum()
    resultant = sum(out[n][:3] for n in names)
    turning = sum(np.cross(at[n] - middle, out[n][:3]) + out[n][3:] for n in names)
    inertia = np.zeros((3, 3))
    for mass, place in zip(case.masses, r, strict=True):
        q = place - middle
        inertia += mass.mass * ((q @ q + mass.gyration**2) * np.eye(3) - np.outer(q, q))
    a = resultant / m.sum()
    w = np.linalg.solve(inertia, turning)
    for mass, place in zip(case.masses, r, strict=True):
        share(
            mass,
            -mass.mass * (a + np.cross(w, place - middle)),
            -mass.mass * mass.gyration**2 * w,
        )
    return np.array([out[n] for n in names])
