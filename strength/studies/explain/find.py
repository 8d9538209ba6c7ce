"""From what was typed to the row, the part or the load that is meant."""

from collections.abc import Mapping, Sequence

import attrs

from strength.case.model import Case, NotChecked
from strength.checks.verdict import Row
from strength.errors import UnknownCheckError

LOADS = "loads"
NOTHING = "nothing of it is checked; a strut by stiffness only carries force"


@attrs.frozen(kw_only=True)
class Meant:
    """What was asked for: one row, the rows of a part, one load, or (all empty) the list of loads."""

    row: Row | None = None
    rows: tuple[Row, ...] = ()
    load: str = ""
    loads: tuple[str, ...] = ()


def meant(
    wanted: str, rows: Sequence[Row], loads: Sequence[str], unchecked: Mapping[str, str] | None = None
) -> Meant:
    """What a text means; rows worst first.

    "part/kind/load": that row. "part/kind": the worst of its loads. "part": its rows. "loads/name":
    that load. "loads": all. unchecked: parts without a row, and why. Raises UnknownCheckError with
    the nearest names.
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
    if unchecked and wanted in unchecked:
        raise UnknownCheckError(wanted, why=unchecked[wanted])
    raise UnknownCheckError(wanted, _nearest(wanted, rows, loads))


def without_rows(case: Case, rows: Sequence[Row], told: Sequence[NotChecked]) -> dict[str, str]:
    """Parts and joints of a case that no row is about, and why."""
    checked = {row.part for row in rows}
    names = [member.name for member in case.members] + [strut.name for strut in case.struts]
    names += [weld.name for weld in case.welds] + [bolt.name for bolt in case.bolts]
    names += [stud.name for stud in case.studs] + [sleeve.name for sleeve in case.sleeves]
    names += [clamp.name for clamp in case.clamps]
    found = {name: NOTHING for name in names if name not in checked}
    for skipped in told:
        if skipped.part in found:
            found[skipped.part] = skipped.why
    return found


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
