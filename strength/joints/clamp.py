"""A split clamp: preload of its bolts and the torque that its friction holds [N, N*mm, mm]."""

from strength.joints.fastener import Fastener

PRELOAD = 0.7  # F_p,C = 0.7 fub As: EN 1993-1-8:2005 3.6.1(2)
PRELOADED = ("8.8", "10.9")  # the classes that clause is for


def preload(own: Fastener) -> float:
    """0.7 fub As of one bolt."""
    return PRELOAD * own.ultimate * (own.tension_area or 0.0)


def slip_torque(force: float, bolts: int, friction: float, diameter: float) -> float:
    """Friction x bolts x preload x diameter: both halves press with all bolts together (own choice)."""
    return friction * bolts * force * diameter
