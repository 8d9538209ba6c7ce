"""What is lost if a part breaks: the parts that alone carry a wheel, a brake or a tow."""

from collections.abc import Iterable

from strength.case.model import Case, Member, Strut
from strength.checks.verdict import Row
from strength.frame.loss import Loss
from strength.report.display import margin
from strength.report.document import Cell, Column, Grid, Section, plain
from strength.report.mirrored import mirrored
from strength.report.view import View
from strength.report.words import count, listed
from strength.values import evolve, frozen

SHOWN = 6  # parts of the least margins, unless all are asked for
LEAD = (
    "Each part is taken away in turn: without one of these, nothing else holds the wheel, brake or tow "
    "named. Mark such a part only_path = true and its utilisations count 1.25 times (a designer's choice)."
)
LATER = "This frame is too large to try what is lost with each part."


def only_paths(view: View) -> Section | None:
    """Parts that are the only path, least margin first; None where no part is."""
    found = view.outcome.losses
    if found is None:
        return Section(title="If it breaks", lead=(LATER,))
    if not found:
        return None
    case = view.outcome.case
    lines = _lines(case, view.outcome.rows, found)
    shown = lines if view.everything else lines[:SHOWN]
    after = []
    if len(lines) > len(shown):
        after.append(f"{count(len(lines) - len(shown), 'more part')} with larger margins: --all shows them.")
    bare = [line.name for line in lines if not line.marked]
    if bare:
        after.append(f"Not marked only_path: {listed(bare, 0 if view.everything else SHOWN)}.")
    columns = (Column("part"), Column("what is lost"), Column("margin", figures=True), Column("only_path"))
    cells = tuple(
        (Cell(line.name), Cell(line.lost), Cell(margin(line.margin)), Cell("yes" if line.marked else "no"))
        for line in shown
    )
    grid = Grid(columns=columns, rows=cells)
    return Section(title="If it breaks", lead=(LEAD,), body=(grid,), after=tuple(after))


@frozen(eq=False)
class _Line:
    """One part, or both sides of one that read the same."""

    name: str
    lost: str
    margin: float | None
    marked: bool


def worst_margin(part: str, rows: Iterable[Row]) -> float | None:
    """Least margin of a part's own rows; None where nothing is asked of it."""
    worst = max((row.utilisation for row in rows if row.part == part), default=0.0)
    return 1.0 / worst - 1.0 if worst > 0.0 else None


def is_marked(case: Case, part: str) -> bool:
    """Whether the user marked a part as the only path."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return any(each.name == part and each.only_path for each in parts)


def _lines(case: Case, rows: tuple[Row, ...], found: tuple[Loss, ...]) -> list[_Line]:
    """Least margin first; both sides as one where they lose the same of their own side."""
    own: dict[str, list[Row]] = {loss.part: [] for loss in found}
    for row in rows:
        if row.part in own:
            own[row.part].append(row)
    alone = {
        loss.part: _Line(
            plain(loss.part), _lost(loss), worst_margin(loss.part, own[loss.part]), is_marked(case, loss.part)
        )
        for loss in found
    }
    lines = []
    for loss in found:
        line, twin = alone[loss.part], alone.get(mirrored(loss.part))
        if twin is None or twin is line or not _same(line, twin):
            lines.append(line)
        elif loss.part.endswith(".left"):
            name = plain(f"{loss.part.removesuffix('.left')} (both)")
            lines.append(evolve(line, name=name, lost=line.lost.replace(".left", " on its side")))
    return sorted(lines, key=lambda line: float("inf") if line.margin is None else line.margin)


def _same(line: _Line, twin: _Line) -> bool:
    swapped = twin.lost.replace(".left", ".?").replace(".right", ".left").replace(".?", ".right")
    sides = ".left" in line.lost and ".right" in line.lost
    same = swapped == line.lost and not sides
    return same and margin(line.margin) == margin(twin.margin) and line.marked is twin.marked


def _lost(loss: Loss) -> str:
    """What is lost, in words.

    >>> _lost(Loss(part="a", wheels=("front", "rear"), tows=("eye",)))
    'wheels front and rear; tow eye'
    """
    every = (("wheel", loss.wheels), ("brake of", loss.brakes), ("tow", loss.tows))
    words = []
    for word, names in every:
        if names:
            noun = "wheels" if word == "wheel" and len(names) > 1 else word
            words.append(f"{noun} {listed([plain(name) for name in names])}")
    return "; ".join(words)
