"""A filler metal."""

import attrs


@attrs.frozen(kw_only=True)
class Filler:
    """A welding or brazing filler.

    `strength` is the weld metal's tensile strength [MPa]; for aluminium `by_parent` gives the
    characteristic weld strength fw of EN 1999-1-1 Table 8.8 by parent alloy and `strength` is
    that of a user's own filler (used as fw).
    """

    name: str
    kind: str  # steel | stainless | aluminium | bronze
    strength: float
    by_parent: dict[str, float] = attrs.Factory(dict)
    suits: tuple[str, ...] = ()
    own: bool = False
    source: str = ""
    sure: str = ""
    note: str = ""
