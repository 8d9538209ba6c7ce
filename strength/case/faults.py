"""Faults of a case file, gathered so that all of them are told at once."""

from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING

from strength.errors import CaseError, QuantityError, RangeError, StrengthError

if TYPE_CHECKING:
    from pathlib import Path


class RefusedError(StrengthError, ValueError):
    """One fault on its way to the list; an empty text: the cause is on the list already."""

    def __init__(self, why: str = "") -> None:
        super().__init__(why)
        self.why = why


class Faults:
    """The faults found so far, in the order in which they were found, each once.

    What is wrong with a mirrored part is wrong with the part it was mirrored from: told once.
    folder: that of the case file, from which the paths in it count.
    """

    def __init__(self, folder: "str | Path | None" = None) -> None:
        self.folder = folder or ""
        self.blocks: dict[str, str] = {}  # path of a block, `bracket[2]`, to the name in it
        self._found: dict[tuple[str, str], tuple[str, str]] = {}

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, path: str, why: str) -> None:
        """Put a fault on the list; path: where it stands in the file (`welds.apex.left.leg`)."""
        if why:
            key = (path, why.replace(".right", ".left"))
            self._found.setdefault(key, (path, why))

    def under(self, path: str) -> bool:
        """Whether something at this path, or at a key below it, has a fault already."""
        return any(found == path or found.startswith((f"{path}.", f"{path}[")) for found, _ in self._found)

    def at(self, path: str) -> "Catch":
        """For `with`: puts what the block refuses on the list, under `path`, and goes on after it."""
        return Catch(self, path)

    def end(self) -> None:
        """Raise CaseError with all faults, if there are any; a block is told by its name as well."""
        if self._found:
            raise CaseError([(path, self._with_name(path, why)) for path, why in self._found.values()])

    def _with_name(self, path: str, why: str) -> str:
        name = self.blocks.get(path.partition("]")[0] + "]", "")
        return why if not name or name in why else f"{why} (in {name!r})"


class Catch:
    """Catches what a block refuses."""

    def __init__(self, faults: Faults, path: str) -> None:
        self._faults = faults
        self._path = path

    def __enter__(self) -> None:
        pass

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> bool:
        if isinstance(error, RefusedError):
            self._faults.add(self._path, error.why)
            return True
        if isinstance(error, QuantityError | RangeError):
            self._faults.add(self._path, str(error))
            return True
        return False


def closest(name: str, known: Collection[str]) -> str:
    """The known name most like a wrong one, capitals aside; empty where none is like it.

    >>> closest("Matrial", ["material", "mass"]), closest("hub", ["hub.left", "bus"])
    ('material', 'hub.left')
    """
    sided = sorted(other for other in known if other.startswith((f"{name}.", f"{name},")))
    if sided:
        return sided[0]
    import difflib

    folded = {other.casefold(): other for other in known}
    found = difflib.get_close_matches(name.casefold(), sorted(folded), n=1, cutoff=0.6)
    return folded[found[0]] if found else ""


def nearest(name: str, known: Iterable[str]) -> str:
    """The end of a sentence about an unknown name: the nearest known one, or what there is.

    >>> nearest("hbu", ["hub", "seat"])
    "; did you mean 'hub'?"
    >>> nearest("zzz", ["hub", "seat"])
    '; known: hub, seat'
    """
    names = sorted(set(known))
    close = closest(name, names)
    if close:
        return f"; did you mean {close!r}?"
    if not names:
        return ""
    return "; known: " + ", ".join(names[:12]) + (", ..." if len(names) > 12 else "")
