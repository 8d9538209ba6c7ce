"""`pull-through`: head or nut pulled through a plate."""

from collections.abc import Iterator

from strength.checks.bolts import bolt_effects
from strength.checks.context import Context
from strength.checks.plate_rows import at_plates
from strength.checks.verdict import Verdict
from strength.joints.bearing import pull_through as resistance

SOURCE = "EN 1993-1-8:2005 Table 3.4, punching"


def pull_through(context: Context) -> Iterator[Verdict]:
    """0.6 pi dm t fu against the pull in the bolt, of the plates under head and nut; pins have neither.

    In two planes these are the cheeks, and the carried plate only where no cheek is given.
    """
    for effect in bolt_effects(context):
        mean = effect.fastener.bearing_mean
        if mean is None or not effect.plates:
            continue
        by = context.factors.on_ultimate()[:, None]
        under = effect.plates[-1:] if effect.two_planes else effect.plates
        limits = [resistance(mean, plate.thickness, plate.ultimate)[:, None] / by for plate in under]
        pulls = [effect.forces.along] * len(under)
        wide = [plate.word for plate in under if plate.entry.hole >= mean]
        outside = f"{' and '.join(wide)}: the hole is as wide as head and nut" if wide else ""
        yield at_plates(context, effect, "pull-through", pulls, limits, SOURCE, plates=under, outside=outside)
