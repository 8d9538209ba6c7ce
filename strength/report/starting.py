"""How a new starter case is talked about: questions at a terminal, and what to do with the file."""

import shlex
import sys
from collections.abc import Sequence

from strength.report.document import Items, Section, plain


def started(path: str, written: Sequence[str]) -> Section:
    """The last section after a starter case was written; written: all files written."""

    def typed(command: str) -> str:
        return plain(f"strength {command} {shlex.quote(path)}")

    steps = (
        "Everything above comes from guessed places and sizes: it says nothing about your vehicle yet.",
        f"Open {plain(path)} in an editor; measure what each comment names, from the wheels inward.",
        f"Run it again after each handful of changes; faults are named with their place:\n{typed('summary')}",
        f"See every part, default and mirrored side as it was understood:\n{typed('expand')}",
    )
    return Section(
        title="Your new case",
        lead=tuple(f"Written: {plain(each)}" for each in written),
        body=(Items(items=tuple((str(i), step) for i, step in enumerate(steps, start=1))),),
    )


def listening() -> str:
    """The next line typed, with its end; empty where the input has ended."""
    return sys.stdin.readline()


def telling(text: str) -> None:
    """Show a text to whoever answers, apart from standard output, which may be a file."""
    sys.stderr.write(text)
    sys.stderr.flush()
