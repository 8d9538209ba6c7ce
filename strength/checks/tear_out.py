"""`tear-out`: a bolt tearing out to the edge of a plate."""

from collections.abc import Iterator

from strength.checks.bolt_columns import late_at_plates, plate_columns
from strength.checks.bolts import BoltEffect
from strength.checks.context import Context
from strength.checks.plate_rows import at_plates, near_edge
from strength.checks.verdict import Verdict
from strength.joints.bearing import LEAST_EDGE
from strength.joints.bearing import tear_out as resistance

SOURCE = "AISC 360-16 J3.10"


def tear_out(context: Context) -> Iterator[Verdict]:
    """1.2 (edge - hole/2) t fu; out of range under 1.2 holes to the edge."""
    own = plate_columns(context)
    if own is None:
        return iter(())
    limit = resistance(own.thickness, own.ultimate, own.edge, own.hole)
    near = own.edge < LEAST_EDGE * own.hole * (1.0 - 1e-12)
    return late_at_plates(context, "tear-out", own, own.pull, limit, _whole, outside=near)


def _whole(context: Context, effect: BoltEffect) -> Verdict:
    by = context.factors.on_ultimate()[:, None]
    limits = [
        resistance(plate.thickness, plate.ultimate, plate.entry.edge, plate.entry.hole)[:, None] / by
        for plate in effect.plates
    ]
    pulls = [effect.pull_on(n) for n in range(len(effect.plates))]
    outside = near_edge(effect, LEAST_EDGE)
    return at_plates(context, effect, "tear-out", pulls, limits, SOURCE, outside=outside)
