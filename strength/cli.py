"""The commands. One function each, no physics; what a command needs is imported inside it.

A new command is a function that returns the exit code, and a line in COMMANDS. Exit codes: 0 all
under the limit; 1 something over its limit; 3 nothing over, but a row out of its source's range.
"""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from strength.cli_explain import EXPLAIN
from strength.cli_shared import CASE, JSON, Argument, Command, Texts
from strength.cli_shared import case_of as _case
from strength.cli_shared import json_text as _json
from strength.cli_shared import refuse_outputs as _refuse
from strength.cli_shared import tell as _tell
from strength.cli_studies import STUDIES
from strength.errors import OutputError
from strength.report.writing import STANDARD_OUTPUT, THERE, create
from strength.values import evolve

if TYPE_CHECKING:
    from strength.report.document import Document

PAGE: Argument = (("--page",), {"metavar": "FILE.html", "help": "write a page to read and to print"})
TABLE: Argument = (("--csv",), {"metavar": "FILE", "help": "write the checks as comma-separated values"})
ALL: Argument = (("--all",), {"action": "store_true", "help": "show every part and every load"})
DRAWING: Argument = (("drawing",), {"metavar": "FILE.svg", "help": "the drawing to write"})
WORDS: Argument = (("words",), {"nargs": "*", "metavar": "WORD", "help": "only what has all of these words"})
STARTER: Argument = (("starter",), {"nargs": "?", "metavar": "FILE", "help": "the case file to write"})
SCHEMA: Argument = (
    ("--schema",),
    {"action": "store_true", "help": "print the JSON Schema of case files instead"},
)
ANSWERS = {  # option without its dashes -> an answer as it is typed, help
    "what": ("trike", "trike, cart, arm or plate"),
    "lean": ("'20 deg'", "greatest lean, 0 deg: upright"),
    "track": ("'780 mm'", "between the tyres' middles"),
    "wheelbase": ("'1250 mm'", "hub to hub; a cart's axle to its grip"),
    "wheel-radius": ("'254 mm'", "ground to axle"),
    "rider": ("'85 kg'", "the rider's mass"),
    "saddle": ("'360 mm'", "height of the saddle"),
    "cargo": ("'35 kg'", "mass of the cargo"),
    "own": ("'24 kg'", "the vehicle's own mass"),
    "on-wheel": ("'50 kg'", "what the wheel of an arm or a plate carries"),
    "tube": ("'tube 25 x 2 mm'", "tube of the wishbones, of a cart's frame"),
    "axle": ("'bar 22 mm'", "stub axle"),
    "plate": ("'flat 70 x 12 mm'", "plate of the knuckle"),
    "plate-metal": ("6082-T651", "its metal"),
    "process": ("tig", "mig, tig, stick or braze"),
}
ANSWER_OPTIONS: tuple[Argument, ...] = tuple(
    ((f"--{key}",), {"metavar": example, "help": asks}) for key, (example, asks) in ANSWERS.items()
)
WRITE: Argument = (("--write",), {"metavar": "FILE", "help": "write it to a file"})


def summary(options: argparse.Namespace) -> int:
    """Loads, margins, what governs and what to do next."""
    _refuse(options, "json", "page", "csv")
    outcome = _outcome(options.case)
    from strength.report.standing import exit_code
    from strength.report.view import look

    typed = {"case_path": options.case, "commands": frozenset(command.name for command in COMMANDS)}
    texts: Texts = []
    if options.csv:
        from strength.report.checks_table import checks_csv

        texts.append((options.csv, checks_csv(outcome.rows)))
    if options.page:
        from strength.report.page import LOAD_COLUMNS, summary_page

        view = look(outcome, everything=options.all, load_columns=LOAD_COLUMNS, wide=True, **typed)
        texts.append((options.page, summary_page(view)))

    def record() -> dict[str, Any]:
        from strength.report.record import summary_record

        return summary_record(outcome)

    def document(width: int) -> "Document":
        return _summary(outcome, options.case, width, everything=options.all)

    _tell(options, record, document, texts)
    return exit_code(outcome.rows)


def loads(options: argparse.Namespace) -> int:
    """The load sheet: wheel forces of each load, and what the vehicle can stand."""
    _refuse(options, "json")
    case = _case(options.case)
    from strength.report.loads_record import loads_record
    from strength.report.sheet import sheet
    from strength.vehicle import balance, limits, missing_kinds

    balanced = balance(case)
    stands = limits(case) if case.wheels else ()
    _tell(
        options,
        lambda: loads_record(balanced, stands),
        lambda _: sheet(case, balanced, stands, missing_kinds(case)),
    )
    return 0


def draw(options: argparse.Namespace) -> int:
    """Draw the structure with its utilisations."""
    _refuse(options, "drawing", "json")
    outcome = _outcome(options.case)
    from strength.report.drawing import drawing, drawing_record
    from strength.report.standing import exit_code
    from strength.report.view import look

    view = look(outcome, case_path=options.case)
    _tell(options, lambda: drawing_record(view), None, [(options.drawing, drawing(view))])
    return exit_code(outcome.rows)


def materials(options: argparse.Namespace) -> int:
    """Metals, fillers, bolts, threads and fatigue classes of the library, with sources."""
    from strength.library.listing import material_tables

    return _library(options, "Materials", material_tables)


def stock(options: argparse.Namespace) -> int:
    """Stock sizes of tubes, bars and plates, with sources."""
    from strength.library.listing import stock_tables

    return _library(options, "Stock sizes", stock_tables)


def new(options: argparse.Namespace) -> int:
    """Write a starter case of your own: asks at a terminal, else takes options and defaults."""
    if options.schema:
        from strength.case import schema

        _refuse(options, "json")
        _tell(options, schema, None, [] if options.json else [(STANDARD_OUTPUT, _json(schema()))])
        return 0
    if options.starter is None:
        raise OutputError("FILE", "is missing: name the case file to write, or ask for --schema")
    if os.path.lexists(options.starter):
        raise OutputError(options.starter, THERE)
    _refuse(options, "starter", "json")
    from strength.case import case_from_text, schema
    from strength.case.starter import SCHEMA_FILE, answered, ask, starter
    from strength.report.starting import listening, started, telling
    from strength.run import run

    given = {key: text for key in ANSWERS if (text := getattr(options, key.replace("-", "_"))) is not None}
    asks = sys.stdin.isatty() and sys.stderr.isatty()
    answers = ask(given, listening, telling) if asks else answered(given)
    text = starter(answers)
    outcome = run(case_from_text(text, options.starter))
    written = []
    if options.starter != STANDARD_OUTPUT:
        create(options.starter, text)
        beside = os.path.join(os.path.dirname(options.starter), SCHEMA_FILE)
        written = [options.starter] if os.path.lexists(beside) else [options.starter, beside]
        for path in written[1:]:
            create(path, _json(schema()))

    def document(width: int) -> "Document":
        shown = _summary(outcome, options.starter, width)
        return evolve(shown, sections=(*shown.sections, started(options.starter, written)))

    texts = [] if written or options.json == STANDARD_OUTPUT else [(STANDARD_OUTPUT, text)]
    _tell(
        options,
        lambda: {"format": 1, "written": written, "answers": answers.texts, "text": text},
        document,
        texts,
    )
    return 0


def expand(options: argparse.Namespace) -> int:
    """The case written out part by part: trade parts, defaults and mirrored sides as plain entries."""
    import tomllib
    from pathlib import Path

    from strength.case.expanded import expand_text

    _refuse(options, "write", "json")
    case = _case(options.case)
    text = expand_text(case, Path(options.case).read_text(encoding="utf-8-sig"))
    target = options.write or (None if options.json == STANDARD_OUTPUT else STANDARD_OUTPUT)
    _tell(
        options,
        lambda: {"format": 1, "case": tomllib.loads(text)},
        None,
        [(target, text)] if target else [],
    )
    return 0


def _library(options: argparse.Namespace, title: str, tables_of: Callable[[Sequence[str]], Any]) -> int:
    """Tables of the library."""
    _refuse(options, "json")
    from strength.report.catalogue import catalogue
    from strength.report.cautions import CAUTIONS

    tables = tables_of(options.words)
    _tell(
        options,
        lambda: {"format": 1, "cautions": list(CAUTIONS), "tables": [table.record() for table in tables]},
        lambda width: catalogue(title, tables, width),
    )
    return 0


def _outcome(path: str) -> Any:
    """The outcome of a case file."""
    case = _case(path)
    from strength.run import run

    return run(case)


def _summary(outcome: Any, path: str, width: int, *, everything: bool = False) -> "Document":
    """The summary of an outcome for a console of some width; path: its case file, as typed."""
    from strength.report.console import ROOM_BESIDE, load_columns
    from strength.report.summary import summary as summarise
    from strength.report.view import look

    wide = width >= ROOM_BESIDE
    return summarise(
        look(
            outcome,
            case_path=path,
            everything=everything,
            load_columns=load_columns(width),
            wide=wide,
            commands=frozenset(command.name for command in COMMANDS),
        )
    )


COMMANDS: tuple[Command, ...] = (
    Command("summary", summary, (CASE, JSON, PAGE, TABLE, ALL)),
    Command("loads", loads, (CASE, JSON)),
    Command("draw", draw, (CASE, DRAWING, JSON)),
    Command("expand", expand, (CASE, WRITE, JSON)),
    *STUDIES,
    *EXPLAIN,
    Command("materials", materials, (WORDS, JSON)),
    Command("stock", stock, (WORDS, JSON)),
    Command("new", new, (STARTER, *ANSWER_OPTIONS, SCHEMA, JSON)),
)
