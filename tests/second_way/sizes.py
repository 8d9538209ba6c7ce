"""Areas, moduli and stress points of sections by plain integration; mm.

z lies along `up` (depth, or the width of a flat), y across it.
"""

from functools import lru_cache
from math import pi, sqrt, tanh

import numpy as np

from strength.case.shape import Bar, Box, Flat, Tube

RANK = 200  # terms of the torsion series of a rectangle
NODES, WEIGHTS = np.polynomial.legendre.leggauss(400)


class Size:
    """A section's figures: area, iy, iz, j, depth (along z), width (along y), wall, kappa_y, kappa_z."""

    def __init__(self, shape, poisson):
        """Integrate over the shape."""
        self.shape = shape
        if isinstance(shape, (Tube, Bar)):
            self._round(poisson)
        elif isinstance(shape, Flat):
            self._flat(poisson)
        elif isinstance(shape, Box):
            self._box(poisson)
        else:
            raise TypeError(shape)
        self.wy = self.iy / (self.depth / 2)
        self.wz = self.iz / (self.width / 2)

    def _round(self, nu):
        tube = isinstance(self.shape, Tube)
        out = (self.shape.od if tube else self.shape.diameter) / 2
        inn = out - self.shape.wall if tube else 0.0
        self.area = pi * (out**2 - inn**2)
        self.iy = self.iz = pi / 4 * (out**4 - inn**4)
        self.j = 2 * self.iy
        self.depth = self.width = 2 * out
        self.wall = self.shape.wall if tube else 2 * out
        m2 = (inn / out) ** 2
        self.kappa_y = self.kappa_z = (
            6 * (1 + nu) * (1 + m2) ** 2 / ((7 + 6 * nu) * (1 + m2) ** 2 + (20 + 12 * nu) * m2)
        )
        self.k = 4 / 3 * (1 + sqrt(m2) + m2) / (1 + m2)

    def _flat(self, nu):
        w, t = self.shape.width, self.shape.thickness
        self.area, self.iy, self.iz = w * t, t * w**3 / 12, w * t**3 / 12
        self.depth, self.width, self.wall = w, t, t
        long, short = max(w, t), min(w, t)
        tail = sum(tanh(n * pi * long / (2 * short)) / n**5 for n in range(1, RANK, 2))
        self.j = long * short**3 / 3 * (1 - 192 / pi**5 * short / long * tail)
        self.kappa_y = self.kappa_z = 10 * (1 + nu) / (12 + 11 * nu)

    def _box(self, nu):
        h, b, t = self.shape.depth, self.shape.width, self.shape.wall
        grow = 2.0 if t <= 6 else 2.5 if t <= 10 else 3.0
        self.outer, self.inner = grow * t, (grow - 1) * t
        out = rounded(h, b, self.outer)
        inn = rounded(h - 2 * t, b - 2 * t, self.inner)
        self.area, self.iz, self.iy = (o - i for o, i in zip(out, inn, strict=True))
        self.depth, self.width, self.wall = h, b, t
        mean = (self.outer + self.inner) / 2
        around = 2 * ((b - t) + (h - t)) - 2 * mean * (4 - pi)
        within = (b - t) * (h - t) - mean**2 * (4 - pi)
        k = 2 * within * t / around
        self.j = t**3 * around / 3 + 2 * k * within
        self.torsion_lever = t + k / t  # tau = T lever / J on the outer surface
        self.kappa_z = cowper_box((b - t) / (h - t), nu)
        self.kappa_y = cowper_box((h - t) / (b - t), nu)


def rounded(h, b, r):
    """Area and second moments (across y, across z) of a rectangle with rounded corners, by quadrature."""
    area, iy = 0.0, 0.0
    bands = [(-h / 2, r - h / 2), (r - h / 2, h / 2 - r), (h / 2 - r, h / 2)]
    iz = 0.0
    for low, high in bands:
        # an angle as variable keeps the integrand smooth where the arc begins
        if low == r - h / 2:
            z = (low + high) / 2 + (high - low) / 2 * NODES
            weight = (high - low) / 2 * WEIGHTS
            half = np.full_like(z, b / 2)
        else:
            a = pi / 4 * (1 + NODES)
            depth = r * np.sin(a)  # above where the arc begins
            weight = r * np.cos(a) * pi / 4 * WEIGHTS
            half = b / 2 - r + r * np.cos(a)
            z = h / 2 - r + depth if low > 0 else r - h / 2 - depth
        area += float(weight @ (2 * half))
        iy += float(weight @ (2 * half * z**2))
        iz += float(weight @ (2 / 3 * half**3))
    return area, iz, iy


def cowper_box(n, nu):
    """Cowper 1966, thin-walled box of one wall thickness; n = flange over web on the mid-line."""
    m = n
    top = 10 * (1 + nu) * (1 + 3 * m) ** 2
    plain = 12 + 72 * m + 150 * m**2 + 90 * m**3
    with_nu = 11 + 66 * m + 135 * m**2 + 90 * m**3
    return top / (plain + nu * with_nu + 10 * n**2 * ((3 + nu) * m + 3 * m**2))


def rectangle_torsion(y, z, t, w):
    """tau_xy, tau_xz at (y, z) of a rectangle t (along y) by w (along z) for T / J = 1, by series."""
    if t > w:
        xz, xy = rectangle_torsion(z, -y, w, t)
        return -xy, xz
    # Prandtl's function for the narrow side t: series in cos(n pi y / t).
    xy, xz = np.zeros_like(y), 2.0 * y
    for n in range(1, RANK, 2):
        sign = (-1) ** ((n - 1) // 2)
        k = n * pi / t
        flat = np.exp(k * (np.abs(z) - w / 2))
        both = np.exp(-k * (np.abs(z) + w / 2))
        low = 1 + np.exp(-k * w)
        cosh, sinh = (flat + both) / low, np.sign(z) * (flat - both) / low
        xz -= 8 * t / pi**2 * sign / n**2 * np.sin(k * y) * cosh
        xy -= 8 * t / pi**2 * sign / n**2 * np.cos(k * y) * sinh
    return xy, xz


@lru_cache(maxsize=200)
def points_of(shape, poisson):
    """Matrices (points, 6) from N Vy Vz T My Mz to sigma and to the two parts of tau."""
    q = Size(shape, poisson)
    if isinstance(shape, (Tube, Bar)):
        phi = np.linspace(0, 2 * pi, 1441)
        s, a, b = np.zeros((3, phi.size, 6))
        s[:, 0] = 1 / q.area
        s[:, 4], s[:, 5] = np.sin(phi) * q.depth / 2 / q.iy, -np.cos(phi) * q.depth / 2 / q.iz
        a[:, 3] = q.depth / 2 / q.j
        a[:, 2], a[:, 1] = q.k / q.area * np.cos(phi), -q.k / q.area * np.sin(phi)
        return s, a, b
    if isinstance(shape, Flat):
        y, z = np.meshgrid(np.linspace(-0.5, 0.5, 61) * q.width, np.linspace(-0.5, 0.5, 121) * q.depth)
        return rectangle_points(q, y.ravel(), z.ravel())
    return box_points(q)


def rectangle_points(q, y, z):
    """The same for points of a whole rectangle."""
    s, xy, xz = np.zeros((3, y.size, 6))
    s[:, 0], s[:, 4], s[:, 5] = 1 / q.area, z / q.iy, -y / q.iz
    xy[:, 3], xz[:, 3] = (v / q.j for v in rectangle_torsion(y, z, q.width, q.depth))
    xz[:, 2] = 1.5 / q.area * (1 - 4 * z**2 / q.depth**2)
    xy[:, 1] = 1.5 / q.area * (1 - 4 * y**2 / q.width**2)
    return s, xy, xz


def box_points(q):
    """The same for a box: four walls and four corner arcs, tau along the mid-line, counter-clockwise."""
    t = q.wall
    h, b = q.depth - t, q.width - t
    rows = []

    def row(y, z, shear_y, shear_z):
        rows.append(
            ([1 / q.area, 0, 0, 0, z / q.iy, -y / q.iz], [0, shear_y, shear_z, q.torsion_lever / q.j, 0, 0])
        )

    for side in (1, -1):
        for z in np.linspace(-1, 1, 241) * (q.depth / 2 - q.outer):  # webs at y = side b/2
            row(side * q.width / 2, z, -b * z / (2 * q.iz), side * (b * h / 4 + h * h / 8 - z * z / 2) / q.iy)
        for y in np.linspace(-1, 1, 241) * (q.width / 2 - q.outer):  # flanges at z = side h/2
            row(y, side * q.depth / 2, -side * (b * h / 4 + b * b / 8 - y * y / 2) / q.iz, h * y / (2 * q.iy))
        for other in (1, -1):
            for a in np.linspace(0, pi / 2, 121):
                y = side * (q.width / 2 - q.outer + q.outer * np.cos(a))
                z = other * (q.depth / 2 - q.outer + q.outer * np.sin(a))
                row(y, z, -other * b * h / (4 * q.iz), side * b * h / (4 * q.iy))
    s, tau = (np.array(v) for v in zip(*rows, strict=True))
    return s, tau, np.zeros_like(tau)


def von_mises(points, forces):
    """Greatest sqrt(sigma^2 + 3 tau^2) for six forces."""
    s, a, b = (m @ forces for m in points)
    return float(np.sqrt((s**2 + 3 * (a**2 + b**2)).max()))


def parts(points, forces):
    """Axial, bending, shear and torsion, each at its own worst point."""
    s, a, b = points
    n = np.array([1, 0, 0, 0, 0, 0]) * forces
    v = np.array([0, 1, 1, 0, 0, 0]) * forces
    t = np.array([0, 0, 0, 1, 0, 0]) * forces
    m = np.array([0, 0, 0, 0, 1, 1]) * forces
    axial = s @ n
    return (
        float(axial[np.abs(axial).argmax()]),
        float(np.abs(s @ m).max()),
        float(np.hypot(a @ v, b @ v).max()),
        float(np.hypot(a @ t, b @ t).max()),
    )


def net_points(shape, hole):
    """The same for a flat at a drilled hole, about the centroid of what is left."""
    w, t, d = shape.width, shape.thickness, hole.diameter
    through = hole.across == "thickness"  # the hole takes a strip of z; else a strip of y
    full = w if through else t
    side = t if through else w
    e = hole.off_centre
    pieces = [(-full / 2, e - d / 2), (e + d / 2, full / 2)]
    area = sum(b - a for a, b in pieces) * side
    middle = sum((b * b - a * a) / 2 for a, b in pieces) * side / area
    about = sum((b**3 - a**3) / 3 for a, b in pieces) * side - area * middle**2
    other = sum((b - a) * side**3 / 12 for a, b in pieces)
    iy, iz = (about, other) if through else (other, about)
    whole = Size(shape, 0.3)
    # Each strip carries shear in its plane by a parabola of its own.
    strip = np.concatenate([np.linspace(a, b, 81) for a, b in pieces])
    bulge = np.tile(1 - np.linspace(-1, 1, 81) ** 2, 2)
    other_way = np.linspace(-side / 2, side / 2, 121)
    along, across = (v.ravel() for v in np.meshgrid(strip, other_way, indexing="ij"))
    own, plain = np.repeat(bulge, 121), 1 - 4 * across**2 / side**2
    y, z = (across, along) if through else (along, across)
    zc, yc = (middle, 0.0) if through else (0.0, middle)
    s, xy, xz = np.zeros((3, y.size, 6))
    # N acts on the member's axis: about the centroid of what is left it also bends.
    s[:, 0] = 1 / area - zc * (z - zc) / iy - yc * (y - yc) / iz
    s[:, 4], s[:, 5] = (z - zc) / iy, -(y - yc) / iz
    left = 1 - d / full
    xy[:, 3], xz[:, 3] = (v / whole.j / left for v in rectangle_torsion(y, z, t, w))
    xz[:, 2] = 1.5 / area * (own if through else plain)
    xy[:, 1] = 1.5 / area * (plain if through else own)
    return s, xy, xz
