"""The entries of both sides, looked up by name and by the points they meet at."""

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from strength.case.faults import Faults
from strength.case.model import NotChecked, Vector, Warned
from strength.case.places import other_side
from strength.case.shape import Rigid, Shape
from strength.case.trade.entry import Entry
from strength.case.trade.names import unknown_member
from strength.case.trade.vector import distance

_HANDED_ON = ("material", "class", "leg", "filler", "process", "quality")  # keys of the trade part as well
JOINTS = ("weld", "bolt", "stud", "hole", "shoulder", "sleeve", "clamp", "dropout")


class Survey:
    """Entries of both sides, and what is found out about them.

    Keys that could not be read are left out of an entry: what asks for them says nothing then, their
    fault is told where they were read. broken: names that parts at fault would have made.
    """

    def __init__(self, entries: Iterable[Entry], faults: Faults, broken: Collection[str] = ()) -> None:
        self._broken = broken
        self.entries = list(entries)
        self.faults = faults
        self.kinds: dict[str, dict[str, Entry]] = {}
        for entry in self.entries:
            self.kinds.setdefault(entry.kind, {})[entry.name] = entry
        self.points: dict[str, Vector] = {
            name: entry.keys["at"] for name, entry in self.of("point").items() if "at" in entry.keys
        }
        self._warned: dict[tuple[str, str], Warned] = {}
        self._unchecked: dict[tuple[str, str, str], NotChecked] = {}

    def of(self, kind: str) -> Mapping[str, Entry]:
        """Entries of a kind by name."""
        return self.kinds.get(kind, {})

    @property
    def warnings(self) -> tuple[Warned, ...]:
        """Warnings, those of an image left out where its original has the same."""
        return tuple(self._warned.values())

    @property
    def not_checked(self) -> tuple[NotChecked, ...]:
        """What is read but not checked."""
        return tuple(self._unchecked.values())

    def fault(self, entry: Entry, key: str, why: str) -> None:
        """A fault of a part, or of a key of it; of a generated part the key is told in words."""
        if entry.maker and key and key not in _HANDED_ON:
            self.faults.add(entry.path, f"its {entry.kind} {entry.name}, `{key}`: {why}")
        else:
            self.faults.add(f"{entry.path}.{key}" if key else entry.path, why)

    def warn(self, part: str, text: str) -> None:
        """A warning about a part; of two mirror images the first is enough."""
        if (other_side(part), _left(text)) in self._warned and other_side(part) != part:
            return
        self._warned.setdefault((part, _left(text)), Warned(part=part, text=text))

    def skip(self, part: str, kind: str, why: str) -> None:
        """Something of a part that is not checked."""
        self._unchecked.setdefault((part, kind, why), NotChecked(part=part, kind=kind, why=why))

    def unknown(self, entry: Entry, key: str, kinds: Iterable[str]) -> bool:
        """Tell a reference to a part that is not there; whether it was one."""
        name = entry.keys.get(key)
        if name is None or any(name in self.of(kind) for kind in kinds):
            return name is None
        if name in self._broken or other_side(name) in self._broken:
            return True
        words = list(kinds)
        known = [each for kind in words for each in self.of(kind)]
        self.fault(entry, key, unknown_member(name, known, " or ".join(words)))
        return True

    def member_of(self, joint: Entry) -> Entry | None:
        """The member, or else the strut, that a joint belongs to."""
        name = joint.keys.get("member")
        return self.of("member").get(name) or self.of("strut").get(name) if name else None

    def ends(self, part: Entry) -> tuple[Vector, Vector] | None:
        """Where a member or strut begins and ends."""
        start, end = self.points.get(part.keys.get("from", "")), self.points.get(part.keys.get("to", ""))
        return None if start is None or end is None else (start, end)

    def length(self, part: Entry) -> float | None:
        """Length of a member or strut [mm]."""
        ends = self.ends(part)
        return None if ends is None else distance(*ends)


def nodes(part: Entry) -> list[str]:
    """The points a member or strut goes through, in order."""
    keys: Mapping[str, Any] = part.keys
    return [name for name in (keys.get("from"), *keys.get("via", ()), keys.get("to")) if name]


def shape_of(part: Entry | None) -> Shape | None:
    """The section of a member or strut."""
    return None if part is None else part.keys.get("section")


def is_rigid(part: Entry) -> bool:
    """Whether a member only joins middle planes."""
    return isinstance(shape_of(part), Rigid)


def _left(text: str) -> str:
    return text.replace(".right", ".left")
