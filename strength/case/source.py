"""A case file as bytes, text and TOML."""

import os
import tomllib
from typing import TYPE_CHECKING, Any

from strength.errors import CaseError

if TYPE_CHECKING:
    from pathlib import Path

LARGEST = 20_000_000  # bytes; no case is that long, a file of another sort is


def load(path: "str | Path") -> bytes:
    """The bytes of a case file; raises CaseError with one message where it cannot be read."""
    try:
        if os.path.isdir(path):
            raise CaseError([(str(path), "is a folder: give the case file in it, such as case.toml")])
        if os.stat(path).st_size > LARGEST:
            raise CaseError([(str(path), "is far too long for a case file")])
        with open(path, "rb") as file:
            return file.read()
    except FileNotFoundError:
        raise CaseError([(str(path), "there is no such file: check the name and the folder")]) from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise CaseError([(str(path), f"cannot be read: {why}")]) from None


def fingerprint(data: bytes) -> str:
    """SHA-256 of a file's bytes, in hexadecimal."""
    from hashlib import sha256  # takes 3 ms to load, and only records and pages tell it

    return sha256(data).hexdigest()


def decode(data: bytes, name: str) -> str:
    """The text of a case file; raises CaseError where it is not UTF-8."""
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise CaseError(
            [(name, f"is not a text in UTF-8 (line {line}): save it as UTF-8 in the editor")]
        ) from None


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a case file; raises CaseError with the line where it is not TOML."""
    try:
        return tomllib.loads(text.replace("\r\n", "\n"))
    except tomllib.TOMLDecodeError as error:
        raise CaseError([(name, f"is not a case file in TOML: {_plainly(str(error), text)}")]) from None
    except RecursionError:
        raise CaseError([(name, "is not a case file: brackets are nested far too deep")]) from None
    except ValueError as error:  # a number of thousands of figures
        raise CaseError([(name, f"is not a case file in TOML: {error}")]) from None


def _plainly(why: str, text: str) -> str:
    """The parser's message with the line it speaks of, and what is most likely wrong in it."""
    words = why.rsplit("(at line ", 1)
    if len(words) == 2 and words[1].split(",")[0].isdigit():
        number = int(words[1].split(",")[0])
        lines = text.splitlines()
        if 0 < number <= len(lines):
            from strength.case.slips import advice  # only where something went wrong

            line = lines[number - 1]
            hint = advice(why, line)
            return f"{why}: {line.strip()[:80]!r}" + (f"; {hint}" if hint else "")
    return why
