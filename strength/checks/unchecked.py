"""Parts and effects that were read but that no check looks at."""

from collections.abc import Iterator

from strength.case.model import NotChecked
from strength.checks.context import Context

JOINTS = {
    "studs": "stud",
    "sleeves": "sleeve",
    "clamps": "clamp",
}


def left_out(context: Context) -> Iterator[NotChecked]:
    """Joints without a check of their own yet, chain pull and fatigue."""
    case = context.case
    for field, kind in JOINTS.items():
        for part in getattr(case, field):
            yield NotChecked(part=part.name, kind=kind, why=f"no check of a {kind} is made: work it by hand")
    for wheel in case.wheels:
        if wheel.driven and any(load.driving > 0.0 for load in context.loads):
            yield NotChecked(
                part=wheel.name,
                kind="chain pull",
                why="the drive is taken as a hub motor's; the pull of a chain is not modelled",
            )
    if case.road is not None:
        yield NotChecked(part="road", kind="fatigue", why="no life is worked out")
