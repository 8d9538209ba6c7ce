"""Members on the face of a box: EN 1993-1-8:2005 Tables 7.10, 7.11, 7.13 and 7.14, from memory.

Characteristic values [N, N*mm], to be divided by gamma_M5. `Face`: b0 the width of the loaded face,
h0 the depth behind it, t0 the wall, fy its yield, kn: `chord_factor`. `Brace`: b1 across the chord,
h1 along it, t1, fy1, angle [rad]. All broadcast.
"""

import numpy as np
from numpy.typing import NDArray

from strength.sections.box import corner_radii
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]

YOUNGS = 210000.0
WIDE = 0.85  # from here on other modes than the face's own bending
ROUND = np.pi / 4.0  # a round brace: the formulas of a square one times this
LEAST = 0.01  # of a face: what is written as left where compression leaves nothing (own choice)


@frozen(kw_only=True, eq=False)
class Face:
    """Chord of a joint on a box [mm, MPa]."""

    b0: Array
    h0: Array
    t0: Array
    fy: Array
    kn: Array
    curve: tuple[Array | float, Array | float] = (
        0.49,
        0.2,
    )  # imperfection and plateau of the walls' buckling curve: c


@frozen(kw_only=True, eq=False)
class Brace:
    """What stands on it [mm, MPa, rad]."""

    b1: Array
    h1: Array
    t1: Array
    fy1: Array
    angle: Array | float


def chord_factor(n: Array, beta: Array) -> Array:
    """Chord factor kn = 1.3 - 0.4 n/beta, at most 1, for compression n over yield; tension 1."""
    found: Array = np.clip(1.3 - 0.4 * np.clip(n, 0.0, 1.0) / beta, LEAST, 1.0)
    return found


def plate_factor(n: Array) -> Array:
    """Chord factor of plates along the chord: km = 1.3 (1 - n), at most 1."""
    found: Array = np.clip(1.3 * (1.0 - np.clip(n, 0.0, 1.0)), LEAST, 1.0)
    return found


def effective(face: Face, width: Array, t1: Array, fy1: Array) -> Array:
    """b_eff = 10/(b0/t0) fy t0/(fy1 t1) width, at most the width."""
    found: Array = np.minimum(10.0 * face.t0 / face.b0 * face.fy * face.t0 / (fy1 * t1), 1.0) * width
    return found


def axial(face: Face, brace: Brace, pressing: Bool, *, crossed: bool) -> Array:
    """T, Y and X joints: the least of face, brace and punching failure, and of the side walls [N].

    Between beta 0.85 and 1 the face's and the side walls' values are interpolated. pressing: where
    the brace is in compression, so that the side walls may buckle.
    """
    beta = brace.b1 / face.b0
    sine = np.sin(brace.angle)
    deep = brace.h1 / (face.b0 * sine)
    narrow = np.minimum(beta, WIDE)
    bending = face.fy * face.t0**2 / ((1.0 - narrow) * sine) * (2.0 * deep + 4.0 * np.sqrt(1.0 - narrow))
    bending = bending * face.kn
    wide = beta > WIDE
    if not np.any(wide):
        return np.asarray(bending)
    strength = np.where(pressing, _side_wall(face, brace, crossed=crossed), face.fy)
    side = face.kn * strength * face.t0 / sine * (2.0 * brace.h1 / sine + 10.0 * face.t0)
    part = np.clip((beta - WIDE) / (1.0 - WIDE), 0.0, 1.0)
    found = bending + part * (side - bending)
    own = (
        brace.fy1
        * brace.t1
        * (2.0 * brace.h1 - 4.0 * brace.t1 + 2.0 * effective(face, brace.b1, brace.t1, brace.fy1))
    )
    punched = _punching(face, brace, 2.0 * brace.h1 / sine) / sine
    found = np.where(wide, np.minimum(found, own), found)
    found = np.where(wide & (beta <= 1.0 - 2.0 * face.t0 / face.b0), np.minimum(found, punched), found)
    return np.asarray(found)


def in_plane(face: Face, brace: Brace, *, crossed: bool) -> Array:
    """Bending along the chord, braces at a right angle (Table 7.14) [N*mm]."""
    beta, eta = brace.b1 / face.b0, brace.h1 / face.b0
    narrow = np.minimum(beta, WIDE)
    bending = face.fy * face.t0**2 * brace.h1
    bending = bending * (0.5 / eta + 2.0 / np.sqrt(1.0 - narrow) + eta / (1.0 - narrow)) * face.kn
    wide = beta > WIDE
    if not np.any(wide):
        return np.asarray(bending)
    side = 0.5 * face.fy * (0.8 if crossed else 1.0) * face.t0 * (brace.h1 + 5.0 * face.t0) ** 2
    lost = 1.0 - effective(face, brace.b1, brace.t1, brace.fy1) / brace.b1
    own = brace.fy1 * (
        _plastic(brace.h1, brace.b1, brace.t1) - lost * brace.b1 * (brace.h1 - brace.t1) * brace.t1
    )
    return np.where(wide, np.minimum(side, own), bending)


def out_of_plane(face: Face, brace: Brace, *, crossed: bool) -> Array:
    """Bending across the chord, braces at a right angle (Table 7.14), chord free to distort [N*mm]."""
    beta = brace.b1 / face.b0
    narrow = np.minimum(beta, WIDE)
    bending = brace.h1 * (1.0 + narrow) / (2.0 * (1.0 - narrow))
    bending = bending + np.sqrt(2.0 * face.b0 * brace.b1 * (1.0 + narrow) / (1.0 - narrow))
    bending = face.fy * face.t0**2 * bending * face.kn
    side = face.fy * (0.8 if crossed else 1.0) * face.t0 * (face.b0 - face.t0) * (brace.h1 + 5.0 * face.t0)
    lost = 1.0 - effective(face, brace.b1, brace.t1, brace.fy1) / brace.b1
    own = brace.fy1 * (_plastic(brace.b1, brace.h1, brace.t1) - 0.5 * lost**2 * brace.b1**2 * brace.t1)
    wide = beta > WIDE
    found = np.where(wide, np.minimum(side, own), bending) if np.any(wide) else bending
    if not crossed:
        around = brace.h1 * face.t0 + np.sqrt(face.b0 * face.h0 * face.t0 * (face.b0 + face.h0))
        found = np.minimum(found, 2.0 * face.fy * face.t0 * around)
    return np.asarray(found)


def plate_across(face: Face, brace: Brace) -> Array:
    """Plate across the face (Table 7.13): least of plate, face, punching and side walls [N]."""
    beta = brace.b1 / face.b0
    found = brace.fy1 * brace.t1 * effective(face, brace.b1, brace.t1, brace.fy1)
    bending = face.fy * face.t0**2 * (2.0 + 2.8 * beta) / np.sqrt(1.0 - 0.9 * np.minimum(beta, WIDE))
    bending = bending * face.kn
    found = np.where(beta <= WIDE, np.minimum(found, bending), found)
    inner = beta <= 1.0 - 2.0 * face.t0 / face.b0
    punched = _punching(face, brace, 2.0 * brace.t1)
    found = np.where((beta > WIDE) & inner, np.minimum(found, punched), found)
    side = face.kn * face.fy * face.t0 * (2.0 * brace.t1 + 10.0 * face.t0)
    return np.asarray(np.where(~inner, np.minimum(found, side), found))


def plate_along(face: Face, brace: Brace, km: Array) -> Array:
    """Plate along the face (Table 7.13): km fy t0^2 (2 h1/b0 + 4 sqrt(1 - t1/b0)) [N]."""
    along = 2.0 * brace.h1 / face.b0 + 4.0 * np.sqrt(np.maximum(1.0 - brace.t1 / face.b0, 0.0))
    found: Array = face.fy * face.t0**2 * along * km
    return found


def _punching(face: Face, brace: Brace, sides: Array) -> Array:
    punched = np.minimum(10.0 * face.t0 / face.b0, 1.0) * brace.b1
    found: Array = face.fy * face.t0 / np.sqrt(3.0) * (sides + 2.0 * punched)
    return found


def _side_wall(face: Face, brace: Brace, *, crossed: bool) -> Array:
    """Buckling strength fb of the chord's side walls at slenderness 3.46 (h0/t0 - 2) sqrt(1/sin)."""
    sine = np.sin(brace.angle)
    slender = 3.46 * (face.h0 / face.t0 - 2.0) * np.sqrt(1.0 / sine)
    slender = slender / (np.pi * np.sqrt(YOUNGS / face.fy))
    imperfection, plateau = face.curve
    phi = 0.5 * (1.0 + imperfection * (slender - plateau) + slender**2)
    chi = np.minimum(1.0 / (phi + np.sqrt(np.maximum(phi**2 - slender**2, 0.0))), 1.0)
    chi = np.where(slender <= plateau, 1.0, chi)
    found: Array = chi * face.fy * (0.8 * sine if crossed else 1.0)
    return found


def _plastic(depth: Array, width: Array, wall: Array) -> Array:
    """Plastic modulus of a box with the round corners of EN 10219-2 (no rounder than its sides allow)."""
    outer, inner = corner_radii(wall)
    whole = _rounded(depth, width, outer)
    hollow = _rounded(np.maximum(depth - 2.0 * wall, 0.0), np.maximum(width - 2.0 * wall, 0.0), inner)
    return np.asarray(whole - hollow)


def _rounded(depth: Array, width: Array, radius: Array) -> Array:
    """Twice the static moment of half a rectangle: each corner lacks (1 - pi/4) r^2.

    What it lacks has its centroid (10 - 3 pi)/(12 - 3 pi) r from the rectangle's sides.
    """
    radius = np.minimum(radius, np.minimum(depth, width) / 2.0)
    lever = depth / 2.0 - (10.0 - 3.0 * np.pi) / (12.0 - 3.0 * np.pi) * radius
    found: Array = width * depth**2 / 4.0 - (4.0 - np.pi) * radius**2 * lever
    return found
