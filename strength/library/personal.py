"""The user's own library: `*.toml` in the configuration folder, or one file named by the user.

Its tables are written as in a case: `[material.my-tube]`, `[filler.my-rod]`, quantities with units.
"""

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from strength.errors import LibraryError
from strength.library.filler import Filler
from strength.library.metal import Metal

Found = TypeVar("Found", Metal, Filler)
Faults = list[tuple[str, str]]  # (key, what is wrong and what to do)
KINDS = ("material", "filler")


def personal_folder() -> Path:
    """`strength` in $XDG_CONFIG_HOME, or in ~/.config where that is not an absolute path.

    XDG Base Directory Specification 0.8: a relative path is to be ignored.
    """
    given = Path(os.environ.get("XDG_CONFIG_HOME", ""))
    return (given if given.is_absolute() else Path("~/.config").expanduser()) / "strength"


def personal_files(file: Path | None = None) -> tuple[Path, ...]:
    """The library files to read, in order of their names; $STRENGTH_LIBRARY names one in their place."""
    named = os.environ.get("STRENGTH_LIBRARY", "")
    if file is None and named:
        file = Path(named)
    return (file,) if file is not None else tuple(sorted(personal_folder().glob("*.toml")))


def personal_metals(file: Path | None = None) -> dict[str, Metal]:
    """The user's own metals by name. Raises LibraryError for the first file that cannot be used."""
    return _gathered(file, "material", _own_metal)


def personal_fillers(file: Path | None = None) -> dict[str, Filler]:
    """The user's own fillers by name. Raises LibraryError as `personal_metals` does."""
    return _gathered(file, "filler", _own_filler)


def _own_metal(name: str, table: Mapping[str, Any]) -> tuple[Metal | None, Faults]:
    from strength.library.own import own_metal

    return own_metal(name, table)


def _own_filler(name: str, table: Mapping[str, Any]) -> tuple[Filler | None, Faults]:
    from strength.library.own import own_filler

    return own_filler(name, table)


def _gathered(
    file: Path | None,
    kind: str,
    make: Callable[[str, Mapping[str, Any]], tuple[Found | None, Faults]],
) -> dict[str, Found]:
    found: dict[str, Found] = {}
    made_in: dict[str, Path] = {}
    for path in personal_files(file):
        for name, table in _tables(path).get(kind, {}).items():
            where = f"{kind}.{name}"
            if not isinstance(table, Mapping):
                raise LibraryError(str(path), where, "must be a table of keys")
            if name in found:
                raise LibraryError(str(path), where, f"is in {made_in[name]} too: keep one of them")
            one, faults = make(name, table)
            if one is None:
                raise LibraryError(str(path), where, "; ".join(f"{key}: {why}" for key, why in faults))
            found[name] = one
            made_in[name] = path
    return found


def _tables(path: Path) -> dict[str, Any]:
    """A file's tables by kind. Raises LibraryError where it cannot be read."""
    import tomllib

    try:
        tables = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else "is not a text file"
        raise LibraryError(str(path), "", f"cannot be read ({why})") from error
    except tomllib.TOMLDecodeError as error:
        raise LibraryError(str(path), "", f"is not TOML: {error}") from error
    for kind, group in tables.items():
        if kind not in KINDS or not isinstance(group, Mapping):
            raise LibraryError(
                str(path), kind, "a library of your own holds [material.NAME] and [filler.NAME] only"
            )
    return tables
