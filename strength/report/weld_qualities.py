"""Every weld as it would stand if it were made well, ordinarily or poorly."""

from strength.checks.verdict import Row
from strength.joints.fillet import QUALITY
from strength.report.display import margin
from strength.report.document import Cell, Column, Grid
from strength.report.sides import PartLine
from strength.report.standing import standing
from strength.report.view import View

KINDS = ("weld-throat", "weld-toe")
LEAD = "Good, ordinary, poor: margins of a weld made so; now (*)."


def qualities(view: View, lines: list[PartLine]) -> Grid | None:
    """The worst margin of each weld at each quality, over all loads; what the file says is marked.

    The quality counts in the throat's strength only; what governs may change with it.
    """
    made = {weld.name: weld.quality for weld in view.outcome.case.welds}
    worst: dict[str, dict[str, Row]] = {line.part: {} for line in lines}
    for row in view.outcome.rows:
        if row.kind not in KINDS or row.part not in worst or row.part not in made:
            continue
        for word, share in QUALITY.items():
            loss = QUALITY[made[row.part]] / share if row.kind == "weld-throat" else 1.0
            known = worst[row.part].get(word)
            if known is None or known.utilisation < row.utilisation * loss:
                worst[row.part][word] = row._replace(utilisation=row.utilisation * loss)
    rows = []
    for line in lines:
        own = worst[line.part]
        if own:
            rows.append((Cell(line.short), *(_cell(own[word], made[line.part] == word) for word in QUALITY)))
    if not rows:
        return None
    columns = (Column("weld, made"), *(Column(word, figures=True) for word in QUALITY))
    return Grid(columns=columns, rows=tuple(rows))


def _cell(row: Row, now: bool) -> Cell:
    how = standing(row)
    return Cell(f"{'* ' if now else ''}{margin(row.margin)}{how.value}", standing=how)
