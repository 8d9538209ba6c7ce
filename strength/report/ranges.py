"""Why a row is out of range: those words of its note that are not about what was looked at."""

import re

from strength.checks.verdict import Row

MOST = 2  # reasons told; the row itself has them all
_LOOKED_AT = (  # compiled where a row is out of range, not at start-up
    r"throat$|over the (?:throat|leg), MPa|the (?:weld's face|wall) of? ?(?:on )?\S+$|the weld's face on"
    r"|(?:round|box|bar|flat|plate) (?:on|across|along) |[TYKX] joint, |[0-9.]+ degrees$|buckling length"
)


def reasons(row: Row) -> str:
    """The first reasons why a row's figure lies outside its source, joined; empty where none is told."""
    words = [each for each in row.note.split("; ") if each and not re.match(_LOOKED_AT, each)]
    return "; ".join(words[:MOST])
