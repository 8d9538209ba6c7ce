"""Collects what one trade part turns into."""

from collections.abc import Callable
from typing import Protocol

from strength.case.model import Assumed
from strength.case.trade.entry import Entry
from strength.case.trade.names import suffixed
from strength.values import field, frozen


class Typed(Protocol):
    """A part the user typed."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def path(self) -> str:
        """Where it stands in the file."""


@frozen(eq=False)
class Making:
    """Entries and assumed values of one trade part, in the order in which they are made.

    settle: from a generated point's name to the name of the point that stands there, which is
    made where there is none.
    """

    part: Typed
    maker: str
    settle: Callable[[str], str]
    entries: list[Entry] = field(factory=list)
    assumed: list[Assumed] = field(factory=list)

    def named(self, suffix: str) -> str:
        """The part's name with a suffix before its side."""
        return suffixed(self.part.name, suffix)

    def point(self, suffix: str) -> str:
        """The point of a generated name."""
        return self.settle(self.named(suffix))

    def add(self, kind: str, suffix: str, keys: dict[str, object]) -> str:
        """Add an entry, keys of value None left out; gives its name."""
        name = self.named(suffix)
        given = {key: value for key, value in keys.items() if value is not None}
        self.entries.append(Entry(kind=kind, name=name, keys=given, path=self.part.path, maker=self.maker))
        return name

    def assume(self, key: str, value: str) -> None:
        """List a value the user left out."""
        self.assumed.append(Assumed(part=self.part.name, key=key, value=value))

    def length(self, key: str, given: float | None, default: float) -> float:
        """A length [mm], the default listed where it is left out."""
        if given is not None:
            return given
        self.assume(key, f"{default:.6g} mm")
        return default
