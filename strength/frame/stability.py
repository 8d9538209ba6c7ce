"""Exact stiffness of a beam-column in its natural deformations, with shear.

Livesley's stability functions in even and odd parts (Livesley & Chandler, Stability Functions for
Structural Frameworks, 1956, from memory), extended to shear deformation after Engesser by
integration: with eta = 1 - P/GA and w = P L^2 / (4 eta EI),
    even = (EI/L) (1 - w h(w)),  odd = (EI/L) / (phi/3 + h(w)),
    h(w) = (1 - sqrt(w) cot sqrt(w)) / w,  phi = 12 EI / (GA L^2).
At P = 0 they are EI/L and 3 EI / (L (1 + phi)). No subdivision of the member is needed: these are the
limit of an infinitely fine one.
"""

import numpy as np

from strength.frame.response import Array, Flags

SERIES = 0.05  # |w| below which the power series is used


def curve(w: Array) -> Array:
    """h(w) = (1 - sqrt(w) cot sqrt(w)) / w, for w of either sign.

    >>> curve(np.array([0.0]))
    array([0.33333333])
    """
    small = np.abs(w) < SERIES
    root = np.sqrt(np.where(small, 1.0, np.abs(w)))
    with np.errstate(over="ignore"):
        cot = np.where(w > 0.0, root / np.tan(root), root / np.tanh(root))
    far = (1.0 - cot) / np.where(small, 1.0, w)
    near = 1 / 3 + w * (1 / 45 + w * (2 / 945 + w * (1 / 4725 + w * (2 / 93555 + w * 1382 / 638512875))))
    return np.asarray(np.where(small, near, far))


def bending(
    compression: Array, ei: Array, ga: Array, length: Array, one_ball: Flags, no_ball: Flags
) -> tuple[Array, Array]:
    """Even and odd stiffness [N*mm] under compression P [N] (tension negative); arrays broadcast.

    With one ball end the odd part is what is left at the other end and even is 0; with two, both are 0.
    Raises nothing at or past a pole: see `first_pole`, below which the values hold.
    """
    eta = 1.0 - compression / ga
    w = compression * length**2 / (4.0 * eta * ei)
    h = curve(w)
    even = ei / length * (1.0 - w * h)
    odd = ei / length / (4.0 * ei / (ga * length**2) + h)
    rest = np.where(one_ball, 4.0 * even * odd / (even + odd), 0.0) if np.any(one_ball) else 0.0
    return np.where(no_ball, even, 0.0), np.where(no_ball, odd, rest)


def first_pole(ei: Array, ga: Array, length: Array, one_ball: Flags, no_ball: Flags) -> Array:
    """Least compression [N] at which a member buckles between its ends while these stand still.

    Clamped ends 4 pi^2 EI/L^2, both balls pi^2 EI/L^2, one ball the root of tan kL = eta kL (20.19 EI/L^2
    without shear); each lowered by shear to P / (1 + P/GA) with its k (Engesser).
    """
    soft = np.asarray(ei / (ga * length**2))
    k_length = np.broadcast_to(np.where(no_ball, 2.0 * np.pi, np.pi), soft.shape).copy()
    one = np.broadcast_to(one_ball, soft.shape)
    k_length[one] = _one_ball_root(soft[one])
    euler = k_length**2 * ei / length**2
    return np.asarray(euler / (1.0 + euler / ga))


def _one_ball_root(soft: Array) -> Array:
    """Root of tan x = eta x in (pi, 3 pi / 2), eta = 1 / (1 + soft x^2), soft = EI / (GA L^2).

    Iterated as x = pi + arctan(eta x), whose slope is under 0.1: each pass gives a figure.
    """
    x = np.full(soft.shape, 1.5 * np.pi)
    for _ in range(18):
        x = np.pi + np.arctan(x / (1.0 + soft * x**2))
    return x
