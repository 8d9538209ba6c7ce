"""The program: reads what was typed, runs one command, and leaves with its exit code.

2: the input cannot be used, told on standard error, with nothing on standard output.
"""

import argparse
import atexit
import gc
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from strength.cli import COMMANDS
from strength.errors import CaseError, StrengthError
from strength.memory import keep_freed
from strength.report.cautions import ONE_LINE

LOOPS = 200_000  # new objects between searches for loops among them: the tens of thousands of a case last
UNUSABLE, INTERRUPTED, BROKEN_PIPE = 2, 130, 141  # the latter two as shells count signals


def _parser(typed: Sequence[str]) -> argparse.ArgumentParser:
    """The parser of the command that is typed; of all of them where none stands first."""
    parser = argparse.ArgumentParser(
        prog="strength",
        description="Structural and weld strength estimates for light vehicles built one at a time.",
        epilog=ONE_LINE,
        formatter_class=_Ready,
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True, prog=parser.prog)
    first = [command for command in COMMANDS if [command.name] == list(typed[:1])]
    for command in first or COMMANDS:
        text = (command.function.__doc__ or "").splitlines()[0]
        own = commands.add_parser(
            command.name, help=text, description=text, epilog=ONE_LINE, formatter_class=_Ready
        )
        for names, settings in command.arguments if command.name in typed else ():
            own.add_argument(*names, **settings)
        own.add_argument("--library", metavar="FILE", help="a library file of your own metals and fillers")
        own.set_defaults(function=command.function)
        own.formatter_class = argparse.HelpFormatter
    parser.formatter_class = argparse.HelpFormatter
    return parser


class _Ready(argparse.HelpFormatter):
    """Looks at arguments as they are added: no help is printed yet, so the terminal's width can wait."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=80)


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
    typed = sys.argv[1:] if arguments is None else arguments
    options = _parser(typed).parse_args(typed)
    if options.library:
        os.environ["STRENGTH_LIBRARY"] = options.library  # for workers of a study too
    try:
        code: int = options.function(options)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return BROKEN_PIPE
    except KeyboardInterrupt:
        return INTERRUPTED
    except (StrengthError, OSError) as error:
        print(_message(error, getattr(options, "case", "")), file=sys.stderr)
        return UNUSABLE
    return code


def _message(error: Exception, case: str) -> str:
    """What cannot be used and why; all faults of a case file, a line each."""
    if isinstance(error, CaseError):
        faults = str(error).splitlines()
        if len(faults) == 1 and faults[0].startswith(f"{case}: "):
            return f"strength: {faults[0]}"
        count = "one fault" if len(error.faults) == 1 else f"{len(error.faults)} faults"
        return "\n  ".join([f"strength: {case or 'the case'} cannot be used, {count}:", *faults])
    if isinstance(error, OSError) and not isinstance(error, StrengthError):
        what = f"{os.fspath(error.filename)!r} " if error.filename else ""
        return f"strength: {what}cannot be used: {error.strerror or error}"
    return f"strength: {error}"


def program() -> NoReturn:
    """One command as a process of its own."""
    gc.set_threshold(LOOPS)
    keep_freed()
    codes: list[int] = []
    atexit.register(_leave, codes)  # the first registered is the last called
    codes.append(main())
    sys.exit(codes[0])


def _leave(codes: Sequence[int]) -> None:
    """End a process that has its exit code, at once: to take it down object by object takes 15 ms."""
    if codes:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(codes[0])


if __name__ == "__main__":
    program()
