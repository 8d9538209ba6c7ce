"""Helpers: a case text expanded, one side, and its entries by kind and name."""

import tomllib
from typing import Any

import attrs

from strength.case.faults import Faults
from strength.case.gather import gather
from strength.case.trade import Expansion, expand
from strength.case.trade.entry import Entry
from strength.errors import CaseError


@attrs.frozen
class Found:
    """An expansion and its faults as (path, text)."""

    expansion: Expansion
    faults: tuple[tuple[str, str], ...]

    def __getitem__(self, words: str) -> Any:
        """Keys of a part: `found["weld lower-front-cup.left"]`."""
        return self.entry(words).keys

    def entry(self, words: str) -> Entry:
        """A part by kind and name."""
        kind, _, name = words.partition(" ")
        found = [each for each in self.expansion.entries if (each.kind, each.name) == (kind, name)]
        assert len(found) == 1, f"{words}: {len(found)} of {self.names(kind)}"
        return found[0]

    def names(self, kind: str) -> list[str]:
        """Names of a kind in order."""
        return [each.name for each in self.expansion.entries if each.kind == kind]

    def at(self, point: str) -> tuple[float, float, float]:
        """Where a point is [mm]."""
        x, y, z = self["point " + point]["at"]
        return (x, y, z)

    def fault(self, path: str) -> str:
        """The one fault of a path."""
        found = [why for where, why in self.faults if where == path]
        assert len(found) == 1, f"{path}: {self.faults}"
        return found[0]

    @property
    def assumed(self) -> dict[tuple[str, str], str]:
        """Assumed values by part and key."""
        return {(each.part, each.key): each.value for each in self.expansion.assumed}


def expanded(text: str, *, mirror: bool = False) -> Found:
    """Expand a text of tables; the title is added."""
    faults = Faults()
    typed = gather(tomllib.loads('title = "t"\n' + text), faults)
    expansion = expand(typed.entries, typed.changes, mirror=mirror, faults=faults)
    try:
        faults.end()
    except CaseError as error:
        return Found(expansion, error.faults)
    return Found(expansion, ())


def sound(text: str, *, mirror: bool = False) -> Found:
    """Expand a text that has no faults."""
    found = expanded(text, mirror=mirror)
    assert found.faults == ()
    return found
