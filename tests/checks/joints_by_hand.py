"""Bolts, studs, sleeves and clamps worked out a second way: plain numbers, one joint and load at a time.

Written from the formulas of EN 1993-1-8, AISC 360 and FED-STD-H28/2 as the program states them, with
nothing taken from it: own axes, own factors, own thread figures. A group is solved as a rigid plate on
equal springs by least squares of the six equations of equilibrium.
"""

import math

import numpy as np

YIELD = {"routine": 1.67, "hard": 1.67, "abuse": 1.25}
LOAD = {"routine": 1.5, "hard": 1.5, "abuse": 1.25}
# nominal pairs of EN 1993-1-8 Table 3.1, ISO 3506-1
CLASSES = {"4.6": (400, 240), "5.8": (500, 400), "8.8": (800, 640), "10.9": (1000, 900), "A2-70": (700, 450)}
PITCH = {"M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M12x1.25": 1.25}
# mean of the flats (ISO 4014) and of the least width across corners
HEAD = {"M6": (10, 11.05), "M8": (13, 14.38), "M10": (16, 17.77), "M12": (18, 20.03)}
STRIP = {"M8": (16.83, 12.16), "M10": (21.48, 15.58), "M12": (26.12, 18.98)}


class Factors:
    """Divisors and the load factor of one basis and severity."""

    def __init__(self, method: str, severity: str) -> None:
        self.limit_state = method == "limit-state"
        self.severity = severity
        self.load = LOAD[severity] if self.limit_state else 1.0
        self.ultimate = 1.25 if self.limit_state else 2.0

    def on_yield(self, kind: str, brittle: bool) -> float:
        """Yield factor or gamma_M0, gamma_M1 of aluminium."""
        if self.limit_state:
            return 1.0 if kind == "steel" else 1.1
        return max(YIELD[self.severity], 1.67) if brittle else YIELD[self.severity]


def diameter_of(text: str) -> float:
    """Diameter in a size text."""
    return float(text.split("x", maxsplit=1)[0][1:]) if text.startswith("M") else float(text.split()[1])


def thread_of(text: str) -> tuple[float, float, float]:
    """Stress area, root diameter and pitch: d2 = d - 0.649519 P, d3 = d - 1.226869 P."""
    d, p = diameter_of(text), PITCH[text]
    d2, d3 = d - 0.649519 * p, d - 1.226869 * p
    return math.pi / 4.0 * ((d2 + d3) / 2.0) ** 2, d3, p


def end_vectors(force: list[float], axes: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Force and moment in body axes of N Vy Vz T My Mz; the sign of both together does not matter."""
    f = sum(force[n] * axes[n] for n in range(3))
    m = sum(force[3 + n] * axes[n] for n in range(3))
    return f, m


def springs(f: np.ndarray, m: np.ndarray, axis: np.ndarray, places: np.ndarray) -> list[np.ndarray]:
    """Forces of equal springs under a rigid plate: least norm that balances force and moment.

    Moments about the middle, so that what bolts in one line cannot carry is a moment alone.
    """
    n = len(places)
    middle = places.mean(axis=0)
    m = m - np.cross(middle, f)
    arms = places - middle
    flat = arms - np.outer(arms @ axis, axis)
    size = np.abs(flat).max()
    rows = np.zeros((6, 3 * n))
    for i, r in enumerate(flat / size):
        rows[:3, 3 * i : 3 * i + 3] = np.eye(3)
        for k in range(3):
            rows[3:, 3 * i + k] = np.cross(r, np.eye(3)[k])
    found, *_ = np.linalg.lstsq(rows, np.concatenate([f, m / size]), rcond=1e-9)
    return [found[3 * i : 3 * i + 3] for i in range(n)]


def bolt_rows(
    text: str,
    grade: str,
    factors: Factors,
    force: list[float],
    axes: np.ndarray,
    axis: np.ndarray,
    planes: int,
    in_thread: bool,
    gap: float,
    places: list | None,
    plates: list[dict],
    width: float | None,
) -> dict[str, tuple[float, float]]:
    """Demand and limit of every row of one bolt joint under one load.

    plates: t, fu, fy, kind, brittle, edge, hole. width: own width of the carried flat.
    """
    fub, fyb = CLASSES[grade]
    pin = text.startswith("pin")
    d = diameter_of(text)
    stainless = grade.startswith("A")
    kind = "stainless" if stainless else "steel"
    brittle = grade == "10.9"
    weak = stainless or grade in ("4.8", "5.8", "6.8", "10.9")
    if pin or not in_thread:
        v_r = 0.6 * fub * math.pi * d * d / 4.0
    else:
        v_r = (0.5 if weak else 0.6) * fub * thread_of(text)[0]
    v_r /= factors.ultimate
    f, m = end_vectors(force, axes)
    if places:
        each = springs(f, m, axis, np.array(places))
        across = [float(np.linalg.norm(v - (v @ axis) * axis)) for v in each]
        along = [abs(float(v @ axis)) for v in each]
        bending = [0.0] * len(each)
    else:
        across = [float(np.linalg.norm(f - (f @ axis) * axis))]
        along = [abs(float(f @ axis))]
        bending = [float(np.linalg.norm(m - (m @ axis) * axis))]
    b = plates[0]["t"]
    a = plates[1]["t"] if len(plates) > 1 else b / 2.0
    shear, bent = [], []
    for p, q in zip(across, bending, strict=True):
        if planes == 2:
            shear.append(p / 2.0 + q / (a + b + 2.0 * gap))
            bent.append(p * (b + 4.0 * gap + 2.0 * a) / 8.0 + q * (gap + a / 2.0) / (a + b + 2.0 * gap))
        else:
            shear.append(p)
            bent.append(p * (gap + b / 2.0) + q)
    k = factors.load
    found = {"bolt-shear": (k * max(shear), v_r)}
    if not pin:
        t_r = 0.9 * fub * thread_of(text)[0] / factors.ultimate
        found["bolt-tension"] = (k * max(along), t_r)
        found["bolt-combined"] = (
            max(k * v / v_r + k * t / (1.4 * t_r) for v, t in zip(shear, along, strict=True)),
            1.0,
        )
        dm = sum(HEAD[text.split("x", maxsplit=1)[0]]) / 2.0
        under = plates[-1:] if planes == 2 else plates
        found["pull-through"] = worst(
            (k * t, 0.6 * math.pi * dm * one["t"] * one["fu"] / factors.ultimate)
            for t in along
            for one in under
        )
    pulls = [(one, across if n == 0 else shear, n == 0) for n, one in enumerate(plates)]
    single = planes == 1 and not places
    found["bearing"] = worst(
        (k * v, bearing(d, one, fub, fyb, pin, kind, brittle, single, factors))
        for one, forces, _ in pulls
        for v in forces
    )
    found["tear-out"] = worst(
        (k * v, 1.2 * (one["edge"] - one["hole"] / 2.0) * one["t"] * one["fu"] / factors.ultimate)
        for one, forces, _ in pulls
        for v in forces
    )
    found["net-section"] = worst(net(k, pulls, factors, width, f, axis, axes, places))
    if pin or gap > 0.0:
        d_b = d if pin or not in_thread else thread_of(text)[1]
        m_r = 1.5 * math.pi * d_b**3 / 32.0 * fyb / factors.on_yield(kind, brittle)
        found["bolt-bending"] = (
            max(math.sqrt((k * q / m_r) ** 2 + (k * v / v_r) ** 2) for q, v in zip(bent, shear, strict=True)),
            1.0,
        )
    return found


def bearing(
    d: float,
    one: dict,
    fub: float,
    fyb: float,
    pin: bool,
    kind: str,
    brittle: bool,
    single: bool,
    factors: Factors,
) -> float:
    """Bearing limit of one hole."""
    if pin:
        by = max(factors.on_yield(one["kind"], one["brittle"]), factors.on_yield(kind, brittle))
        return 1.5 * d * one["t"] * min(one["fy"], fyb) / by
    ratio = min(1.0, fub / one["fu"])
    if factors.limit_state:
        k1 = min(2.5, 2.8 * one["edge"] / one["hole"] - 1.7)
        found = k1 * d * one["t"] * one["fu"] * min(ratio, one["edge"] / (3.0 * one["hole"]))
    else:
        found = 2.4 * d * one["t"] * one["fu"] * ratio
    if single:
        found = min(found, 1.5 * d * one["t"] * one["fu"])
    return found / factors.ultimate


def net(k, pulls, factors, width, f, axis, axes, places):
    """Net-section rows of both plates; a group in the flat shares its width."""
    for one, forces, carried in pulls:
        for n, v in enumerate(forces):
            strip = 2.0 * one["edge"]
            if carried and width is not None:
                beside = 1
                if places:
                    at = [float(np.dot(p, axes[0])) for p in places]
                    beside = sum(abs(x - at[n]) < one["hole"] for x in at)
                    v = max(v, float(np.linalg.norm(f - (f @ axis) * axis)) / beside)
                strip = width / beside
            yield k * v, 0.9 * (strip - one["hole"]) * one["t"] * one["fu"] / factors.ultimate


def worst(pairs) -> tuple[float, float]:
    """The pair of greatest utilisation."""
    return max(pairs, key=lambda pair: pair[0] / pair[1])


def stud_rows(
    text: str,
    grade: str,
    factors: Factors,
    force: list[float],
    axes: np.ndarray,
    axis: np.ndarray,
    reach: float,
    engaged: float,
    into: dict,
) -> dict[str, tuple[float, float]]:
    """Rows of one stud; into: fu, fy, kind of the tapped metal."""
    fub, fyb = CLASSES[grade]
    area, d3, p = thread_of(text)
    d = diameter_of(text)
    f, m = end_vectors(force, axes)
    along = abs(float(f @ axis))
    across = math.sqrt(max(float(f @ f) - along**2, 0.0))
    bending = math.sqrt(max(float(m @ m) - float(m @ axis) ** 2, 0.0))
    k = factors.load
    kind = "stainless" if grade.startswith("A") else "steel"
    tapped, own = STRIP[text]
    return {
        "stud-bending": (
            k * (32.0 * (across * reach + bending) / (math.pi * d3**3) + along / area),
            fyb / factors.on_yield(kind, True),
        ),
        "stud-rocking": (
            k * (across * (6.0 * reach + 4.0 * engaged) + 6.0 * bending) / (d * engaged**2),
            into["fy"] / factors.on_yield(into["kind"], True),
        ),
        "thread-strip": (
            k * along,
            0.6 * (engaged - p) * min(tapped * into["fu"], own * fub) / factors.ultimate,
        ),
    }
