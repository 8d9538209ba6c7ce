"""Warnings about tube in tube: clearance and overlap."""

from collections.abc import Iterator

from strength.case.model import Warned
from strength.checks.context import Context
from strength.checks.guards_bolts import PRACTICE

CLEAR = 1.0  # mm on the diameter, nominal
SLIDING = "0.2 to 0.5"
DEEP = 1.5  # tube diameters


def tight_sleeve(context: Context) -> Iterator[Warned]:
    """Sleeves with under 1 mm between the tubes' nominal diameters."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects
    from strength.library import wall_tolerance

    for effect in sleeve_effects(context):
        inner, outer = effect.tubes
        gap = outer.bore - float(inner.outside.max())
        if gap < CLEAR - 1e-9:
            wall = (float(outer.outside.max()) - outer.bore) / 2.0
            left = gap - 2.0 * wall_tolerance(outer.metal, wall).minus
            text = (
                f"{gap:.2g} mm between the tubes' nominal diameters, {left:.2g} mm if the outer wall is as "
                f"much over as it may be under: below {CLEAR:g} mm, tolerances, the seam inside and welding "
                f"can take it up; try the tubes in the hand, or ream after welding {PRACTICE}"
            )
            yield Warned(part=effect.sleeve.name, text=text)


def loose_sleeve(context: Context) -> Iterator[Warned]:
    """Sleeves with over 1 mm between the tubes' nominal diameters."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects

    for effect in sleeve_effects(context):
        inner, outer = effect.tubes
        gap = outer.bore - float(inner.outside.min())
        if gap > CLEAR + 1e-9:
            text = (
                f"{gap:.2g} mm between the tubes' nominal diameters: over {CLEAR:g} mm it rattles and bears "
                f"on its edges, harder than the figure says; {SLIDING} mm slide well (suppliers of tube)"
            )
            yield Warned(part=effect.sleeve.name, text=text)


def end_of_slot(context: Context) -> Iterator[Warned]:
    """Inner tubes that end less than a diameter past the slot of the outer one."""
    for sleeve in context.case.sleeves:
        if sleeve.slot is None:
            continue
        bar = context.bars.names.index(sleeve.member)
        outside, past = float(context.bars.depth[:, bar].max()), sleeve.overlap - sleeve.slot
        if past < outside - 1e-9:
            told = f"ends {past:.3g} mm past" if past > 0.0 else f"ends {-past:.3g} mm before"
            text = (
                f"the inner tube {told} the end of the slot, where outer tubes crack: let it reach a "
                f"diameter ({outside:g} mm) past it, and drill the slot's end round {PRACTICE}"
            )
            yield Warned(part=sleeve.name, text=text)


def short_sleeve(context: Context) -> Iterator[Warned]:
    """Sleeves that overlap by less than 1.5 diameters of the inner tube."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects

    for effect in sleeve_effects(context):
        times = effect.sleeve.overlap / float(effect.tubes[0].outside.max())
        if times < DEEP - 1e-9:
            text = f"the tubes overlap by {times:.2g} diameters: {DEEP:g} to 2 are wanted to pass on bending"
            yield Warned(part=effect.sleeve.name, text=f"{text} {PRACTICE}")
