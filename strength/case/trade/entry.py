"""One part of the case while it is being put together: its kind, its name and its keys."""

from collections.abc import Mapping
from typing import Any

from strength.case.model import Vector
from strength.values import evolve, frozen

Place = str | Vector


@frozen(kw_only=True)
class Entry:
    """A typed or generated part: `keys` as in the case file, their values already read.

    kind: singular (`member`, `weld`). keys: file keys (`from`, `to`, `section`, `leg`) to plain
    values in mm, N, N*mm, kg and rad; shapes, bolt sizes and plates as their own values. A key
    that is left out takes its default later. path: of the part the user typed. maker: that part
    in words (`wishbone lower.left`), empty where the entry is typed itself.
    """

    kind: str
    name: str
    keys: Mapping[str, Any]
    path: str
    maker: str = ""

    def with_keys(self, **keys: object) -> "Entry":
        """A copy with some keys set anew."""
        return evolve(self, keys={**self.keys, **keys}) if keys else self
