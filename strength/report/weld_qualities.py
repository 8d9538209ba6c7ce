"""Every weld as it would stand if it were made well, ordinarily or poorly."""

from strength.joints.fillet import QUALITY
from strength.report.document import Cell, Column, Grid
from strength.report.sides import PartLine
from strength.report.study_words import margin_words, standing_of
from strength.report.view import View

KINDS = ("weld-throat", "weld-toe")
LEAD = "Good, ordinary, poor: margins of a weld made so; now (*)."


def qualities(view: View, lines: list[PartLine]) -> Grid | None:
    """The worst margin of each weld at each quality, over all loads; what the file says is marked.

    The quality counts in the throat's strength only; what governs may change with it.
    """
    made = {weld.name: weld.quality for weld in view.outcome.case.welds}
    worst: dict[str, dict[str, tuple[float, bool]]] = {line.part: {} for line in lines}
    for row in view.outcome.rows:
        if row.kind not in KINDS or row.part not in worst or row.part not in made:
            continue
        for word, share in QUALITY.items():
            loss = QUALITY[made[row.part]] / share if row.kind == "weld-throat" else 1.0
            use, covered = worst[row.part].get(word, (0.0, True))
            worst[row.part][word] = max(use, row.utilisation * loss), covered and row.in_range
    rows = []
    for line in lines:
        own = worst[line.part]
        if own:
            rows.append((Cell(line.short), *(_cell(*own[word], made[line.part] == word) for word in QUALITY)))
    if not rows:
        return None
    columns = (Column("weld, made"), *(Column(word, figures=True) for word in QUALITY))
    return Grid(columns=columns, rows=tuple(rows))


def _cell(use: float, covered: bool, now: bool) -> Cell:
    how = standing_of(use, in_range=covered)
    return Cell(f"{'* ' if now else ''}{margin_words(use)}{how.value}", standing=how)
