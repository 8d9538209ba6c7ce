"""The checks as comma-separated values, a line per part, kind and load."""

import csv
import io
from typing import TYPE_CHECKING

from strength.report.cautions import ONE_LINE
from strength.report.standing import standing
from strength.report.words import STANDING_WORDS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from strength.checks.verdict import Row

HEAD = (
    "id", "part", "kind", "load", "where", "demand", "limit", "unit", "utilisation", "margin",
    "standing", "in_range", "fails", "source", "note", "caution",
)  # fmt: skip


def checks_csv(rows: "Iterable[Row]") -> str:
    """All rows, worst first, with a heading line; the caution stands on every line."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEAD)
    for row in rows:
        writer.writerow(
            (
                row.id, row.part, row.kind, row.load, row.where, float(row.demand), float(row.limit),
                row.unit, float(row.utilisation), "" if row.margin is None else float(row.margin),
                STANDING_WORDS[standing(row)], "yes" if row.in_range else "no", row.fails, row.source,
                row.note, ONE_LINE,
            )
        )  # fmt: skip
    return text.getvalue()
