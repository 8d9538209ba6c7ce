"""Stresses at single places of a section, written out one by one, without the program's matrices."""

from math import cos, cosh, hypot, pi, sin, sinh, sqrt, tanh

Six = tuple[float, float, float, float, float, float]


def von_mises(sigma: float, tau: float) -> float:
    """sqrt(sigma^2 + 3 tau^2)."""
    return sqrt(sigma**2 + 3.0 * tau**2)


def round_worst(od: float, inner: float, forces: Six, steps: int = 3600) -> float:
    """Round section, walked round its outer radius."""
    n, vy, vz, t, my, mz = forces
    r, m = od / 2.0, inner / od
    area, inertia = pi / 4.0 * (od**2 - inner**2), pi / 64.0 * (od**4 - inner**4)
    k = 4.0 / 3.0 * (1.0 + m + m * m) / (1.0 + m * m)
    worst = 0.0
    for step in range(steps):
        phi = 2.0 * pi * step / steps
        y, z = r * cos(phi), r * sin(phi)
        sigma = n / area + my * z / inertia - mz * y / inertia
        # torsion turns from y to z: along (-sin, cos); transverse shear along the same direction
        tau = t * r / (2.0 * inertia) + k / area * (vz * cos(phi) - vy * sin(phi))
        worst = max(worst, von_mises(sigma, tau))
    return worst


def torsion_at(y: float, z: float, thickness: float, width: float) -> tuple[float, float]:
    """St Venant stresses (along y, along z) for G theta = 1, thickness <= width."""
    tau_y, tau_z = 0.0, 2.0 * y
    for n in range(1, 60, 2):
        sign = (-1.0) ** ((n - 1) // 2)
        k = n * pi / thickness
        if (
            k * width / 2.0 > 300.0
        ):  # cosh leaves the range of floats; what is left out is felt at the ends only
            break
        weight = 8.0 * thickness / (pi**2 * n**2) * sign / cosh(k * width / 2.0)
        tau_z -= weight * cosh(k * z) * sin(k * y)
        tau_y -= weight * sinh(k * z) * cos(k * y)
    return tau_y, tau_z


def torsion_constant(thickness: float, width: float) -> float:
    """Torsion constant of a rectangle by its series."""
    series = sum(tanh(n * pi * width / (2.0 * thickness)) / n**5 for n in range(1, 40, 2))
    return width * thickness**3 / 3.0 * (1.0 - 192.0 / pi**5 * thickness / width * series)


def flat_at(y: float, z: float, width: float, thickness: float, forces: Six) -> float:
    """Von Mises of a flat at one place, thickness <= width."""
    n, vy, vz, t, my, mz = forces
    area = width * thickness
    sigma = n / area + my * z * 12.0 / (thickness * width**3) - mz * y * 12.0 / (width * thickness**3)
    twist_y, twist_z = torsion_at(y, z, thickness, width)
    rate = t / torsion_constant(thickness, width)
    tau_y = rate * twist_y + 1.5 * vy / area * (1.0 - 4.0 * y * y / thickness**2)
    tau_z = rate * twist_z + 1.5 * vz / area * (1.0 - 4.0 * z * z / width**2)
    return von_mises(sigma, hypot(tau_y, tau_z))


def flat_worst(width: float, thickness: float, forces: Six, steps: int = 60) -> float:
    """Flat, over a grid on the whole rectangle."""
    return max(
        flat_at(
            thickness * (i / steps - 0.5) * 0.999999,
            width * (j / steps - 0.5) * 0.999999,
            width,
            thickness,
            forces,
        )
        for i in range(steps + 1)
        for j in range(steps + 1)
    )


def box_worst(
    depth: float,
    width: float,
    wall: float,
    outer: float,
    figures: tuple[float, float, float, float],
    forces: Six,
    steps: int = 400,
) -> float:
    """Box, walked along its straight walls and corner arcs; figures: A, Iy, Iz, torsion modulus."""
    n, vy, vz, t, my, mz = forces
    area, iy, iz, modulus = figures
    b, h = width - wall, depth - wall

    def sigma(y: float, z: float) -> float:
        return n / area + my * z / iy - mz * y / iz

    twist = t / modulus
    worst = 0.0
    for step in range(steps + 1):
        s = 2.0 * step / steps - 1.0
        z = s * (depth / 2.0 - outer)
        for side in (1.0, -1.0):
            # upward shear in the wall at y = side b/2
            up = vz * (b * h / 4.0 + h * h / 8.0 * (1.0 - (2.0 * z / h) ** 2)) / iy
            up += -side * vy * b * z / (2.0 * iz) + side * twist
            worst = max(worst, von_mises(sigma(side * width / 2.0, z), up))
        y = s * (width / 2.0 - outer)
        for side in (1.0, -1.0):
            # leftward (toward +y) shear in the wall at z = side h/2
            left = vy * (b * h / 4.0 + b * b / 8.0 * (1.0 - (2.0 * y / b) ** 2)) / iz
            left += -side * vz * h * y / (2.0 * iy) - side * twist
            worst = max(worst, von_mises(sigma(y, side * depth / 2.0), left))
        turn = step / steps * pi / 2.0
        for side_y in (1.0, -1.0):
            for side_z in (1.0, -1.0):
                y = side_y * (width / 2.0 - outer + outer * cos(turn))
                z = side_z * (depth / 2.0 - outer + outer * sin(turn))
                corner = vz * b * h / (4.0 * iy) - side_y * side_z * vy * b * h / (4.0 * iz) + side_y * twist
                worst = max(worst, von_mises(sigma(y, z), corner))
    return worst
