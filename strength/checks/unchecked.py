"""Effects that were read but that no check looks at."""

from collections.abc import Iterator

from strength.case.model import NotChecked
from strength.checks.context import Context


def left_out(context: Context) -> Iterator[NotChecked]:
    """Chain pull and fatigue."""
    case = context.case
    for wheel in case.wheels:
        if wheel.driven and any(load.driving > 0.0 for load in context.loads):
            yield NotChecked(
                part=wheel.name,
                kind="chain pull",
                why="the drive is taken as a hub motor's; the pull of a chain is not modelled",
            )
    if case.road is not None:
        yield NotChecked(part="road", kind="fatigue", why="no life is worked out")
