"""The banners: the caution, and one for each way a result falls short. Each has its own words and shape."""

from typing import TYPE_CHECKING

from strength.report.cautions import CAUTIONS, HEADING
from strength.report.display import margin
from strength.report.document import Banner, plain
from strength.report.standing import Standing
from strength.report.words import count, kind_name, listed, verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from strength.checks.verdict import Row
    from strength.report.sides import Folded, PartLine
    from strength.run import Outcome

CAUTION = Banner(kind="caution", heading=HEADING, lines=CAUTIONS)
NAMED = 4  # parts that a banner names


def banners(outcome: "Outcome", folded: "Folded") -> tuple[Banner, ...]:
    """What must be seen before any table: over the limit, out of range, thin margin, not checked."""
    found = (_over(folded), _out_of_range(folded), _thin(folded), _unchecked(outcome))
    return tuple(banner for banner in found if banner is not None)


def _named(pairs: "Iterable[tuple[PartLine, Row]]") -> str:
    """The first few parts, each with a check."""
    return listed([f"{line.label} ({kind_name(row.kind)})" for line, row in pairs], NAMED)


def _over(folded: "Folded") -> Banner | None:
    """Parts over their limit, the worst with its load."""
    over = [line for line in folded.lines if line.standing is Standing.OVER]
    if not over:
        return None
    worst = over[0]
    lines = [
        (
            f"Worst: {worst.label}, {kind_name(worst.worst.kind)}, {verdict(worst.worst)} "
            f"under {plain(worst.worst.load)!r}."
        )
    ]
    if len(over) > 1:
        lines.append(f"Also {_named((line, line.worst) for line in over[1:])}.")
    lines.append("Do not build or ride it like this.")
    return Banner(
        kind="over", heading=f"OVER THE LIMIT: {count(len(over), 'part').upper()}", lines=tuple(lines)
    )


def _out_of_range(folded: "Folded") -> Banner | None:
    """Parts whose check is used outside the range of its source."""
    rows = [(line, line.outside) for line in folded.lines if line.outside is not None]
    if not rows:
        return None
    return Banner(
        kind="range",
        heading=f"OUT OF RANGE: {count(len(rows), 'part').upper()}",
        lines=(
            f"A formula is used outside its source's range, its figure proves nothing: {_named(rows)}.",
            "Change the part until it is in range, or have an engineer judge it.",
        ),
    )


def _thin(folded: "Folded") -> Banner | None:
    """Parts within the limit by less than a quarter, those with another check out of range among them."""
    thin = [
        (line, line.thin)
        for line in folded.lines
        if line.thin is not None and line.standing is not Standing.OVER
    ]
    if not thin:
        return None
    thin.sort(key=lambda pair: -pair[1].utilisation)
    least = f"least {margin(thin[0][1].margin)}"
    return Banner(
        kind="thin",
        heading=f"THIN MARGIN: {count(len(thin), 'part').upper()}",
        lines=(
            f"Within the limit, but by less than a quarter: {_named(thin)}; {least}.",
            "A worse weld, a heavier rider or a harder knock than assumed uses this up.",
        ),
    )


def missing(kinds: "Sequence[str]") -> Banner | None:
    """The banner of a load sheet that leaves out what every vehicle meets."""
    if not kinds:
        return None
    return Banner(kind="unchecked", heading="NOT LOOKED AT", lines=(_missing(kinds),))


def _missing(kinds: "Sequence[str]") -> str:
    """Which usual loads a case leaves out."""
    return f"The case has no load for {listed(list(kinds))}: add what it will meet."


def _unchecked(outcome: "Outcome") -> Banner | None:
    """What was read but not checked, and the loads that a careful builder would look at too."""
    lines = []
    parts = len({skipped.part for skipped in outcome.not_checked})
    if not outcome.rows:
        lines.append("No check applies to anything in this case: nothing here says that it holds.")
    if parts:
        lines.append(
            f"{count(parts, 'part is', 'parts are')} not checked, or not in every way: see the list below."
        )
    if outcome.missing_loads:
        lines.append(_missing(outcome.missing_loads))
    if not lines:
        return None
    heading = f"NOT CHECKED: {count(parts, 'part').upper()}" if parts else "NOT CHECKED"
    return Banner(kind="unchecked", heading=heading, lines=tuple(lines))
