"""The user's own library: `*.toml` in the configuration folder, or one file named by the user.

Its tables are written as in a case: `[material.my-tube]`, `[filler.my-rod]`, quantities with units.
"""

import os
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from strength.errors import LibraryError
from strength.library.filler import Filler
from strength.library.metal import Metal

if TYPE_CHECKING:
    from pathlib import Path

Found = TypeVar("Found", Metal, Filler)
Faults = list[tuple[str, str]]  # (key, what is wrong and what to do)
KINDS = ("material", "filler")


def personal_folder() -> str:
    """`strength` in $XDG_CONFIG_HOME, or in ~/.config where that is not an absolute path.

    XDG Base Directory Specification 0.8: a relative path is to be ignored.
    """
    given = os.environ.get("XDG_CONFIG_HOME", "")
    return os.path.join(given if os.path.isabs(given) else os.path.expanduser("~/.config"), "strength")


def personal_files(file: "str | Path | None" = None) -> tuple[str, ...]:
    """The library files to read, in order of their names; $STRENGTH_LIBRARY names one in their place."""
    named = os.environ.get("STRENGTH_LIBRARY", "") if file is None else str(file)
    if named:
        return (named,)
    folder = personal_folder()
    try:
        names = sorted(os.listdir(folder))
    except OSError:  # most have none
        return ()
    return tuple(os.path.join(folder, name) for name in names if name.endswith(".toml"))


def personal_metals(file: "str | Path | None" = None) -> dict[str, Metal]:
    """The user's own metals by name. Raises LibraryError for the first file that cannot be used."""
    return _gathered(file, "material", _own_metal)


def personal_fillers(file: "str | Path | None" = None) -> dict[str, Filler]:
    """The user's own fillers by name. Raises LibraryError as `personal_metals` does."""
    return _gathered(file, "filler", _own_filler)


def _own_metal(name: str, table: Mapping[str, Any]) -> tuple[Metal | None, Faults]:
    from strength.library.own import own_metal

    return own_metal(name, table)


def _own_filler(name: str, table: Mapping[str, Any]) -> tuple[Filler | None, Faults]:
    from strength.library.own import own_filler

    return own_filler(name, table)


def _gathered(
    file: "str | Path | None",
    kind: str,
    make: Callable[[str, Mapping[str, Any]], tuple[Found | None, Faults]],
) -> dict[str, Found]:
    found: dict[str, Found] = {}
    made_in: dict[str, str] = {}
    for path in personal_files(file):
        for name, table in _tables(path).get(kind, {}).items():
            where = f"{kind}.{name}"
            if not isinstance(table, Mapping):
                raise LibraryError(path, where, "must be a table of keys")
            if name in found:
                raise LibraryError(path, where, f"is in {made_in[name]} too: keep one of them")
            one, faults = make(name, table)
            if one is None:
                raise LibraryError(path, where, "; ".join(f"{key}: {why}" for key, why in faults))
            found[name] = one
            made_in[name] = path
    return found


def _tables(path: str) -> dict[str, Any]:
    """A file's tables by kind. Raises LibraryError where it cannot be read."""
    import tomllib

    try:
        with open(path, encoding="utf-8") as file:
            tables = tomllib.loads(file.read())
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else "is not a text file"
        raise LibraryError(path, "", f"cannot be read ({why})") from error
    except tomllib.TOMLDecodeError as error:
        raise LibraryError(path, "", f"is not TOML: {error}") from error
    for kind, group in tables.items():
        if kind not in KINDS or not isinstance(group, Mapping):
            raise LibraryError(
                str(path), kind, "a library of your own holds [material.NAME] and [filler.NAME] only"
            )
    return tables
