"""The commands. One function each, no physics; what a command needs is imported inside it.

Exit codes: 0 all under the limit; 1 something over its limit; 3 nothing over, but a row out of its
source's range; 2 the input cannot be used.
"""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from typing import Any

import attrs

from strength.errors import CaseError, OutputError, StrengthError
from strength.report.cautions import ONE_LINE
from strength.report.writing import STANDARD_OUTPUT, refuse, write

UNUSABLE, INTERRUPTED, BROKEN_PIPE = 2, 130, 141
Argument = tuple[tuple[str, ...], dict[str, Any]]

CASE: Argument = (("case",), {"metavar": "CASE", "help": "the case file (TOML)"})
JSON: Argument = (("--json",), {"metavar": "FILE", "help": "write the JSON record (-: standard output)"})
PAGE: Argument = (("--page",), {"metavar": "FILE.html", "help": "write a page to read and to print"})
TABLE: Argument = (("--csv",), {"metavar": "FILE", "help": "write the checks as comma-separated values"})
ALL: Argument = (("--all",), {"action": "store_true", "help": "show every part and every load"})


def summary(options: argparse.Namespace) -> int:
    """Loads, margins, what governs and what to do next."""
    outputs = _outputs(options, "json", "page", "csv")
    outcome = _outcome(options.case)
    from strength.report.standing import exit_code
    from strength.report.view import look

    texts = []
    if options.json:
        from strength.report.record import summary_record, text_of

        texts.append((options.json, text_of(summary_record(outcome))))
    if options.csv:
        from strength.report.checks_table import checks_csv

        texts.append((options.csv, checks_csv(outcome.rows)))
    if options.page:
        from strength.report.page import summary_page

        texts.append((options.page, summary_page(look(outcome, **_typed(options)))))
    if STANDARD_OUTPUT in outputs:
        _write(texts)
        return exit_code(outcome.rows)
    from strength.report.console import ROOM_BESIDE, load_columns, show, width_of
    from strength.report.summary import summary as summarise

    width = width_of(sys.stdout)
    view = look(
        outcome,
        everything=options.all,
        load_columns=load_columns(width),
        wide=width >= ROOM_BESIDE,
        **_typed(options),
    )
    document = summarise(view)
    _write(texts)
    show(document, sys.stdout, width)
    return exit_code(outcome.rows)


def _typed(options: argparse.Namespace) -> dict[str, Any]:
    """What the user typed and may type next, for the lines that say what to do."""
    return {"case_path": options.case, "commands": frozenset(command.name for command in COMMANDS)}


def _outcome(path: str) -> Any:
    """The outcome of a case file."""
    from strength.case import read
    from strength.run import run

    return run(read(path))


def _outputs(options: argparse.Namespace, *names: str) -> tuple[str, ...]:
    """The output files asked for, after making sure that each can be written."""
    paths = tuple(path for name in names if (path := getattr(options, name)) is not None)
    for path in paths:
        refuse(path, inputs=(options.case,) if "case" in options else ())
        if sum(_meant(path) == _meant(other) for other in paths) > 1:
            raise OutputError(path, "is asked for twice: give each output a file of its own")
    return paths


def _meant(path: str) -> str:
    """A path in one spelling."""
    return path if path == STANDARD_OUTPUT else os.path.realpath(path)


def _write(texts: Sequence[tuple[str, str]]) -> None:
    """Write all texts, each to its file."""
    for path, text in texts:
        write(path, text)


@attrs.frozen
class Command:
    """A command: its name, its function and its arguments; the help is the function's docstring."""

    name: str
    function: Callable[[argparse.Namespace], int]
    arguments: tuple[Argument, ...]


COMMANDS: tuple[Command, ...] = (Command("summary", summary, (CASE, JSON, PAGE, TABLE, ALL)),)


def _parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    parser = argparse.ArgumentParser(
        prog="strength",
        description="Structural and weld strength estimates for light vehicles built one at a time.",
        epilog=ONE_LINE,
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for command in COMMANDS:
        text = (command.function.__doc__ or "").splitlines()[0]
        own = commands.add_parser(command.name, help=text, description=text, epilog=ONE_LINE)
        for names, settings in command.arguments:
            own.add_argument(*names, **settings)
        own.set_defaults(function=command.function)
    return parser


class _Version(argparse.Action):
    """Print the version; read only when asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        from strength.report.program import NAME, version

        print(NAME, version())
        parser.exit()


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # small solves: threads only slow them down
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a console without the letters still gets the figures
    options = _parser().parse_args(arguments)
    try:
        code: int = options.function(options)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return BROKEN_PIPE
    except KeyboardInterrupt:
        return INTERRUPTED
    except (StrengthError, OSError) as error:
        print(_message(error), file=sys.stderr)
        return UNUSABLE
    return code


def _message(error: Exception) -> str:
    """What cannot be used and why; all faults of a case file, a line each."""
    if isinstance(error, CaseError):
        faults = str(error).splitlines()
        count = "one fault" if len(faults) == 1 else f"{len(faults)} faults"
        return "\n  ".join([f"strength: the case cannot be used ({count}):", *faults])
    if isinstance(error, OSError) and not isinstance(error, StrengthError):
        what = f"{os.fspath(error.filename)!r} " if error.filename else ""
        return f"strength: {what}cannot be used: {error.strerror or error}"
    return f"strength: {error}"
