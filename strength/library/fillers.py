"""Fillers by name, from the case, the user's own library or the library."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from strength.library import data
from strength.library.filler import Filler
from strength.library.personal import personal_fillers

if TYPE_CHECKING:
    from pathlib import Path


def find_filler(
    name: str, *, extra: Mapping[str, Filler] | None = None, personal: "str | Path | None" = None
) -> Filler:
    """The filler of that name; arguments and order as for `find_metal`.

    Raises UnknownNameError with the nearest names.
    """
    if extra and name in extra:
        return extra[name]
    own = personal_fillers(personal)
    if name in own:
        return own[name]
    if name not in data.index("filler"):
        known = [*(extra or ()), *own, *data.index("filler")]
        raise data.unknown("filler", name, known)
    first, table = data.read("filler", name)
    return Filler(
        name=first,
        kind=table["kind"],
        strength=float(table["strength"]),
        by_parent={parent: float(fw) for parent, fw in table.get("by_parent", {}).items()},
        suits=tuple(table["suits"]),
        source=table["source"],
        sure=table["sure"],
        note=table.get("note", ""),
        also=tuple(table.get("also", ())),
    )


def filler_names() -> tuple[str, ...]:
    """First names of all fillers of the library, in its order."""
    return data.names("filler")
