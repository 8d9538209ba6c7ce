"""`pull-through`: head or nut pulled through a plate."""

from collections.abc import Iterator

from strength.checks.bolt_columns import late_at_plates, plate_columns, under
from strength.checks.bolts import BoltEffect
from strength.checks.context import Context
from strength.checks.plate_rows import at_plates
from strength.checks.verdict import Verdict
from strength.joints.bearing import pull_through as resistance

KIND = "pull-through"
SOURCE = "EN 1993-1-8:2005 Table 3.4, punching"


def pull_through(context: Context) -> Iterator[Verdict]:
    """0.6 pi dm t fu against the pull in the bolt, of the plates under head and nut; pins have neither.

    In two planes these are the cheeks, and the carried plate only where no cheek is given.
    """
    own = plate_columns(context)
    if own is None:
        return
    limit = resistance(own.mean, own.thickness, own.ultimate)
    found = late_at_plates(
        context, KIND, own, own.along, limit, _whole, outside=own.hole >= own.mean, counts=own.is_under
    )
    for verdict, effect in zip(found, own.effects, strict=True):
        if effect.fastener.bearing_mean is not None:
            yield verdict


def _whole(context: Context, effect: BoltEffect) -> Verdict:
    mean = effect.fastener.bearing_mean
    if mean is None:
        raise TypeError("a pin has neither head nor nut")
    by = context.factors.on_ultimate()[:, None]
    pressed = tuple(plate for n, plate in enumerate(effect.plates) if under(effect, n))
    limits = [resistance(mean, plate.thickness, plate.ultimate)[:, None] / by for plate in pressed]
    pulls = [effect.forces.along] * len(pressed)
    wide = [plate.word for plate in pressed if plate.entry.hole >= mean]
    outside = f"{' and '.join(wide)}: the hole is as wide as head and nut" if wide else ""
    return at_plates(context, effect, KIND, pulls, limits, SOURCE, plates=pressed, outside=outside)
