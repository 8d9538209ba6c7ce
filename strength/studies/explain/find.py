"""From what was typed to the row, the part or the load that is meant."""

from collections.abc import Sequence

import attrs

from strength.checks.verdict import Row
from strength.errors import UnknownCheckError

LOADS = "loads"


@attrs.frozen(kw_only=True)
class Meant:
    """What was asked for: one row, the rows of a part, one load, or (all empty) the list of loads."""

    row: Row | None = None
    rows: tuple[Row, ...] = ()
    load: str = ""
    loads: tuple[str, ...] = ()


def meant(wanted: str, rows: Sequence[Row], loads: Sequence[str]) -> Meant:
    """What a text means; rows worst first.

    "part/kind/load": that row. "part/kind": the worst of its loads. "part": its rows. "loads/name":
    that load. "loads": all. Raises UnknownCheckError with the nearest names.
    """
    parts = {row.part for row in rows}
    if wanted in parts:
        return Meant(rows=tuple(row for row in rows if row.part == wanted))
    for row in rows:
        if wanted in (row.id, f"{row.part}/{row.kind}"):
            return Meant(row=row)
    if wanted == LOADS:
        return Meant(loads=tuple(loads))
    own = wanted.removeprefix(f"{LOADS}/")
    if own != wanted and own in loads:
        return Meant(load=own)
    raise UnknownCheckError(wanted, _nearest(wanted, rows, loads))


def _nearest(wanted: str, rows: Sequence[Row], loads: Sequence[str]) -> list[str]:
    """Names near to what was typed: within the part where that is known, else of as many words."""
    from difflib import get_close_matches

    head, depth = wanted.split("/", 1)[0], wanted.count("/")
    own = [row for row in rows if row.part == head]
    names: dict[str, None] = {}
    for row in own or rows:
        names[row.part if depth == 0 else f"{row.part}/{row.kind}" if depth == 1 else row.id] = None
    if not own and depth <= 1:
        names |= dict.fromkeys(f"{LOADS}/{load}" for load in loads)
    found = get_close_matches(wanted, names, n=2, cutoff=0.8 if own else 0.5)
    if found or own:
        return found or [head]
    return get_close_matches(head, {row.part: None for row in rows}, n=2, cutoff=0.5)
