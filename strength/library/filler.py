"""A filler metal."""

from typing import TYPE_CHECKING

from strength.values import field, frozen

if TYPE_CHECKING:
    from strength.library.metal import Metal


@frozen(kw_only=True)
class Filler:
    """A welding or brazing filler.

    `strength` is the weld metal's tensile strength [MPa]; for aluminium `by_parent` gives the
    characteristic weld strength fw of EN 1999-1-1 Table 8.8 by parent alloy and `strength` is
    that of a user's own filler (used as fw).
    """

    name: str
    kind: str  # steel | stainless | aluminium | bronze
    strength: float
    by_parent: dict[str, float] = field(factory=dict)  # by `Metal.family`
    suits: tuple[str, ...] = ()  # families it is meant for; none given: not known
    own: bool = False
    source: str = ""
    sure: str = ""
    note: str = ""
    also: tuple[str, ...] = ()  # other names

    def fw(self, parent: "Metal") -> float | None:
        """Characteristic strength fw [MPa] of a weld in this aluminium parent.

        A user's own filler: its `strength`. None where EN 1999-1-1 Table 8.8 gives none for the
        pair. Two parents joined: take the lower of both (same clause).
        """
        return self.strength if self.own else self.by_parent.get(parent.family)

    def is_meant_for(self, parent: "Metal") -> bool | None:
        """Whether the filler suits this parent; None where the library does not know."""
        if not self.suits or not parent.family:
            return None
        return parent.family in self.suits
