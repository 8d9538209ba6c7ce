"""The change blocks: a generated or typed part overridden, key by key, or taken out."""

from collections.abc import Iterable, Mapping
from typing import Any

from strength.case.faults import Faults, nearest
from strength.case.kinds import KINDS
from strength.case.readers import read_keys, said
from strength.case.trade.entry import Entry
from strength.values import evolve, frozen


@frozen(kw_only=True)
class Change:
    """What one block changes: `keys` read as the keys of that kind."""

    kind: str
    name: str
    path: str
    keys: Mapping[str, Any]
    remove: bool = False

    @property
    def after_mirroring(self) -> bool:
        """Whether it is for the right-hand side alone."""
        return self.name.endswith(".right")


def read_change(raw: Mapping[str, object], path: str, faults: Faults) -> Change | None:
    """One change block as typed; None where it cannot be told what it changes."""
    part = raw.get("part")
    if part is None:
        faults.add(path, "`part` is missing: kind and name of what is changed, such as 'weld apex.left'")
        return None
    kind, _, name = part.strip().partition(" ") if isinstance(part, str) else ("", "", "")
    name = name.strip()
    if kind not in KINDS or not name:
        hint = nearest(kind, KINDS) if kind and name else ""
        faults.add(f"{path}.part", f"{said(part)} is not a kind and a name, such as 'weld apex.left'{hint}")
        return None
    remove = raw.get("remove", False)
    if not isinstance(remove, bool):
        faults.add(f"{path}.remove", f"{said(remove)} is neither true nor false (without quotes)")
        return None
    rest = {key: value for key, value in raw.items() if key not in ("part", "remove")}
    if remove and rest:
        faults.add(path, f"takes {part!r} out and changes its {', '.join(rest)}: do one of the two")
        return None
    if not remove and not rest:
        faults.add(path, f"changes nothing of {part!r}: give a key of a {kind}, or remove = true")
        return None
    keys = tuple(key._replace(missing="") for key in KINDS[kind].keys)
    return Change(kind=kind, name=name, path=path, keys=read_keys(rest, keys, path, faults), remove=remove)


def changed(entries: Iterable[Entry], changes: Iterable[Change], faults: Faults) -> list[Entry]:
    """Entries with the changes applied in order; a change of what is not there is a fault."""
    found = list(entries)
    for change in changes:
        hit = [entry for entry in found if (entry.kind, entry.name) == (change.kind, change.name)]
        if not hit:
            known = [entry.name for entry in found if entry.kind == change.kind]
            why = f"no {change.kind} is named {change.name!r}{nearest(change.name, known)}"
            faults.add(f"{change.path}.part", why)
        elif change.remove:
            found = [entry for entry in found if entry not in hit]
        else:
            found = [_altered(entry, change.keys) if entry in hit else entry for entry in found]
    return found


# Where a key is another way of saying the same, the change drops the other.
_DROPS = {
    ("point", "at"): ("from", "by", "between", "on"),
    ("point", "from"): ("at", "between", "on"),
    ("point", "between"): ("from", "by", "on"),
    ("point", "on"): ("from", "by", "between"),
    ("strut", "stiffness"): ("section", "material"),
    ("strut", "section"): ("stiffness",),
    ("shoulder", "fillet"): ("root",),
    ("shoulder", "root"): ("fillet",),
}


def _altered(entry: Entry, keys: Mapping[str, Any]) -> Entry:
    """The entry with a change's keys."""
    dropped = {other for key in keys for other in _DROPS.get((entry.kind, key), ()) if other not in keys}
    merged = {**{key: value for key, value in entry.keys.items() if key not in dropped}, **keys}
    ends = {merged.get("from_end"), merged.get("to_end")}
    if entry.kind == "member" and "hinge" not in ends and "hinge_axis" not in keys:
        merged.pop("hinge_axis", None)
    return evolve(entry, keys=merged)
