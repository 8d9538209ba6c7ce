"""Warnings about tube in tube: clearance and overlap."""

from collections.abc import Iterator

from strength.case.model import Warned
from strength.checks.context import Context
from strength.checks.guards_bolts import PRACTICE

CLEAR = 1.0  # mm on the diameter, nominal
DEEP = 1.5  # tube diameters


def tight_sleeve(context: Context) -> Iterator[Warned]:
    """Sleeves with under 1 mm between the tubes' nominal diameters."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects

    for effect in sleeve_effects(context):
        inner, outer = effect.tubes
        gap = outer.bore - float(inner.outside.max())
        if gap < CLEAR - 1e-9:
            text = (
                f"{gap:.2g} mm between the tubes' nominal diameters: under {CLEAR:g} mm, tolerances, the "
                "seam inside and welding can take it up; try the tubes in the hand, or ream after welding "
                f"{PRACTICE}"
            )
            yield Warned(part=effect.sleeve.name, text=text)


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
