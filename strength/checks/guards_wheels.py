"""Warnings about brakes near the axle and threads at the root of a stub axle."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Warned, Wheel
from strength.checks.context import Context
from strength.checks.divisors import is_stub_axle
from strength.checks.guards_bolts import PRACTICE

Array = NDArray[np.float64]

SHARP = 0.05  # fillet over diameter (own choice)
LEAST_ARM = 50.0  # mm from the axle's line to what takes the brake torque


def brake_near_axle(context: Context) -> Iterator[Warned]:
    """Calipers, and bolts of the part that carries one, under 50 mm from the axle's line."""
    place = {point.name: np.array(point.at) for point in context.case.points}
    for wheel in context.case.wheels:
        if not wheel.braked or wheel.caliper is None:
            continue
        arm = _arm(wheel, place, place[wheel.caliper])
        if arm < LEAST_ARM:
            yield Warned(part=wheel.name, text=_text("its caliper stands", arm))
        for bolt in context.case.bolts:
            part = next((m for m in context.case.members if m.name == bolt.member), None)
            if part is None or wheel.caliper not in (part.start, part.end, *part.via):
                continue
            end = place[part.start if bolt.end == "from" else part.end]
            arm = min(_arm(wheel, place, end + step) for step in np.array(bolt.group or [(0.0, 0.0, 0.0)]))
            if arm < LEAST_ARM:
                yield Warned(part=bolt.name, text=_text("a bolt that takes brake torque stands", arm))


def thread_at_root(context: Context) -> Iterator[Warned]:
    """A thread cut, or a step as good as sharp, within one diameter of the root of a stub axle."""
    names = context.bars.names
    for shoulder in context.case.shoulders:
        bar = names.index(shoulder.member)
        diameter = float(context.bars.depth[0, bar])
        sharp = shoulder.fillet is not None and shoulder.fillet < SHARP * diameter * (1.0 - 1e-9)
        if not (shoulder.root or sharp) or shoulder.inset > diameter or not is_stub_axle(context.case, bar):
            continue
        member = context.case.members[bar]
        end = member.start if shoulder.end == "from" else member.end
        if all(wheel.centre != end for wheel in context.case.wheels):
            what = "a thread" if shoulder.root else f"a step with a fillet of only {shoulder.fillet:g} mm"
            text = f"{what} within one diameter of this stub axle's root is where such axles break {PRACTICE}"
            yield Warned(part=shoulder.name, text=text)


def _arm(wheel: Wheel, place: dict[str, Array], at: Array) -> float:
    """Distance of a place from a wheel's axle line [mm]."""
    axle = np.array(wheel.axle)
    off = at - place[wheel.centre]
    return float(np.linalg.norm(off - (off @ axle) * axle))


def _text(what: str, arm: float) -> str:
    return f"{what} {arm:.0f} mm from the axle: under {LEAST_ARM:g} mm the force is great {PRACTICE}"
