"""Files are written whole or not at all."""

import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

from strength.errors import OutputError

if TYPE_CHECKING:
    from pathlib import Path

STANDARD_OUTPUT = "-"
THERE = "is there already: name a new file"


def refuse(paths: Sequence[str], *, inputs: Sequence[str] = ()) -> None:
    """Raise OutputError where a path could not be written, or would overwrite an input or another.

    Looked at before anything is computed; nothing is left behind.
    """
    for path in paths:
        if sum(_meant(path) == _meant(other) for other in paths) > 1:
            raise OutputError(path, "is asked for twice: give each output a file of its own")
        if path != STANDARD_OUTPUT:
            _refuse_file(path, inputs)


def _meant(path: str) -> str:
    """A path in one spelling."""
    return path if path == STANDARD_OUTPUT else os.path.realpath(path)


def _refuse_file(path: str, inputs: Sequence[str]) -> None:
    """Raise OutputError where one file could not be written or is an input."""
    from pathlib import Path  # takes 3 ms, and most runs write no file

    target = Path(path)
    if not path or target.is_dir():
        raise OutputError(path, "is not a file: name one")
    if not target.parent.is_dir():
        raise OutputError(path, f"cannot be written: there is no folder {str(target.parent)!r}")
    if any(_same(target, Path(given)) for given in inputs):
        raise OutputError(path, "is the case file itself: name another file")
    if target.exists() and not os.access(target, os.W_OK):
        raise OutputError(path, "cannot be written: the file is write-protected")
    if target.is_file() or not target.exists():
        try:
            part, handle = _beside(target.resolve())
        except OSError as error:
            raise OutputError(path, f"cannot be written: {error.strerror or error}") from error
        os.close(handle)
        part.unlink()


def _same(one: "Path", other: "Path") -> bool:
    """Whether two paths mean one file, through links too."""
    try:
        return one.samefile(other)
    except OSError:
        return one.resolve() == other.resolve()


def write(path: str, text: str) -> None:
    """Write UTF-8 text to a file, whole or not at all; `-` is standard output.

    Raises OutputError where it cannot be written.
    """
    if path == STANDARD_OUTPUT:
        _to_standard_output(text)
        return
    from pathlib import Path

    target = Path(path).resolve()
    try:
        if target.exists() and not target.is_file():  # a pipe or a device: there is nothing to replace
            target.write_text(text, encoding="utf-8", newline="\n")
        else:
            _replace(target, text)
    except OSError as error:
        raise OutputError(path, f"cannot be written: {error.strerror or error}") from error


def create(path: str, text: str) -> None:
    """Write UTF-8 text to a new file, whole or not at all; raises OutputError where one is there already."""
    from pathlib import Path

    target = Path(path).parent.resolve() / Path(path).name
    try:
        _link(target, text)
    except FileExistsError:
        raise OutputError(path, THERE) from None
    except OSError as error:
        raise OutputError(path, f"cannot be written: {error.strerror or error}") from error


def _link(target: "Path", text: str) -> None:
    """Write beside the target, then give it the target's name unless that is taken."""
    part, handle = _beside(target)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        try:
            os.link(part, target)
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            with target.open("x", encoding="utf-8", newline="\n") as stream:
                stream.write(text)
    finally:
        with suppress(OSError):
            part.unlink()


def write_all(texts: Iterable[tuple[str, str]]) -> None:
    """Write several texts, each to its file; standard output last."""
    for path, text in sorted(texts, key=lambda pair: pair[0] == STANDARD_OUTPUT):
        write(path, text)


def _to_standard_output(text: str) -> None:
    """UTF-8 whatever the terminal's own letters are: it is for another program to read."""
    raw = getattr(sys.stdout, "buffer", None)
    if raw is None:
        sys.stdout.write(text)
        return
    sys.stdout.flush()
    raw.write(text.encode("utf-8"))
    raw.flush()


def _beside(target: "Path") -> "tuple[Path, int]":
    """A new, empty file in the target's folder and its handle."""
    part = target.with_name(f".{target.name[:80]}.{os.getpid()}.part")
    return part, os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)


def _replace(target: "Path", text: str) -> None:
    """Write beside the target, then rename over it, keeping the target's permissions."""
    part, handle = _beside(target)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        if target.exists():
            part.chmod(target.stat().st_mode & 0o777)
        part.replace(target)
    except BaseException:
        with suppress(OSError):
            part.unlink()
        raise
