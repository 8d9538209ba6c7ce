"""What all commands share: arguments, outputs and how a record and a document are shown."""

import argparse
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from strength.report.writing import STANDARD_OUTPUT, refuse, write_all
from strength.values import frozen

if TYPE_CHECKING:
    from strength.report.document import Document

Argument = tuple[tuple[str, ...], dict[str, Any]]
Texts = list[tuple[str, str]]  # (file, text)

CASE: Argument = (("case",), {"metavar": "CASE", "help": "the case file (TOML)"})
JSON: Argument = (("--json",), {"metavar": "FILE", "help": "write the JSON record (-: standard output)"})


def case_of(path: str) -> Any:
    """A case file, read and checked."""
    from strength.case import read_case

    return read_case(path)


def refuse_outputs(options: argparse.Namespace, *names: str) -> None:
    """Make sure that each output file asked for can be written, before anything is computed."""
    paths = [path for name in names if (path := getattr(options, name)) is not None]
    refuse(paths, inputs=(options.case,) if "case" in options else ())


def json_text(record: dict[str, Any]) -> str:
    """A record as text."""
    from strength.report.record_text import text_of  # most runs write no record

    return text_of(record)


def tell(
    options: argparse.Namespace,
    record: Callable[[], dict[str, Any]],
    document: "Callable[[int], Document] | None",
    texts: Texts | None = None,
) -> None:
    """Write the files, then show the document, unless standard output is one of the files.

    All texts are made before the first is written.
    """
    texts = list(texts or ())
    if options.json:
        texts.append((options.json, json_text(record())))
    if document is None or any(path == STANDARD_OUTPUT for path, _ in texts):
        write_all(texts)
        return
    from strength.report.console import show, width_of

    width = width_of(sys.stdout)
    shown = document(width)
    write_all(texts)
    show(shown, sys.stdout, width)


@frozen(eq=False)
class Command:
    """A command: its name, its function and its arguments; the help is the function's docstring."""

    name: str
    function: Callable[[argparse.Namespace], int]
    arguments: tuple[Argument, ...]
