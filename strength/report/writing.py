"""Files are written whole or not at all."""

import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress

from strength.errors import OutputError

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
    if not path or os.path.isdir(path):
        raise OutputError(path, "is not a file: name one")
    target = os.path.realpath(path)
    if not os.path.isdir(os.path.dirname(path.rstrip(os.sep)) or os.curdir):
        raise OutputError(path, f"cannot be written: there is no folder {_folder(path)!r}")
    if any(_same(target, given) for given in inputs):
        raise OutputError(path, "is the case file itself: name another file")
    if os.path.exists(target) and not os.access(target, os.W_OK):
        raise OutputError(path, "cannot be written: the file is write-protected")
    if os.path.isfile(target) or not os.path.exists(target):
        try:
            part, handle = _beside(target)
        except OSError as error:
            raise OutputError(path, f"cannot be written: {error.strerror or error}") from error
        os.close(handle)
        os.unlink(part)


def _folder(path: str) -> str:
    """The folder of a path, for a message."""
    from pathlib import Path  # takes 3 ms

    return str(Path(path).parent)


def _same(one: str, other: str) -> bool:
    """Whether two paths mean one file, through links too."""
    try:
        return os.path.samefile(one, other)
    except OSError:
        return os.path.realpath(one) == os.path.realpath(other)


def write(path: str, text: str) -> None:
    """Write UTF-8 text to a file, whole or not at all; `-` is standard output.

    Raises OutputError where it cannot be written.
    """
    if path == STANDARD_OUTPUT:
        _to_standard_output(text)
        return
    target = os.path.realpath(path)
    try:
        if os.path.exists(target) and not os.path.isfile(target):  # a pipe or a device: nothing to replace
            with open(target, "w", encoding="utf-8", newline="\n") as stream:
                stream.write(text)
        else:
            _replace(target, text)
    except OSError as error:
        raise OutputError(path, f"cannot be written: {error.strerror or error}") from error


def create(path: str, text: str) -> None:
    """Write UTF-8 text to a new file, whole or not at all; raises OutputError where one is there already."""
    folder, name = os.path.split(path.rstrip(os.sep))
    try:
        _link(os.path.join(os.path.realpath(folder), name), text)
    except FileExistsError:
        raise OutputError(path, THERE) from None
    except OSError as error:
        raise OutputError(path, f"cannot be written: {error.strerror or error}") from error


def _link(target: str, text: str) -> None:
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
            with open(target, "x", encoding="utf-8", newline="\n") as stream:
                stream.write(text)
    finally:
        with suppress(OSError):
            os.unlink(part)


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


def _beside(target: str) -> tuple[str, int]:
    """A new, empty file in the target's folder and its handle."""
    folder, name = os.path.split(target)
    part = os.path.join(folder, f".{name[:80]}.{os.getpid()}.part")
    return part, os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)


def _replace(target: str, text: str) -> None:
    """Write beside the target, then rename over it, keeping the target's permissions."""
    part, handle = _beside(target)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        if os.path.exists(target):
            os.chmod(part, os.stat(target).st_mode & 0o777)
        os.replace(part, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(part)
        raise
