"""The commands of studies: many designs of one case compared."""

import argparse
from typing import TYPE_CHECKING

from strength.cli_shared import CASE, JSON, Argument, Command, Texts, case_of, refuse_outputs, tell
from strength.errors import OutputError, QuantityError

if TYPE_CHECKING:
    from collections.abc import Callable

    from strength.studies.candidates import Between
    from strength.studies.screened import Run, Screened
    from strength.studies.typed import TypedCase

MEMBERS: Argument = (
    ("member",),
    {
        "nargs": "+",
        "metavar": "MEMBER",
        "help": "what to screen: a member, strut, bolt or stud; several: all combinations",
    },
)
FLAT: Argument = (("member",), {"metavar": "MEMBER", "help": "a flat"})
WELD: Argument = (("weld",), {"metavar": "WELD", "help": "a weld"})
SHARING: Argument = (
    ("--with",),
    {
        "dest": "sharing",
        "action": "append",
        "metavar": "MEMBER",
        "help": "another member that takes the same size",
    },
)
OD: Argument = (
    ("--od",),
    {"metavar": "LENGTH", "help": "keep this outside diameter or side, or a range: '20 .. 30 mm'"},
)
WALL: Argument = (("--wall",), {"metavar": "LENGTH", "help": "keep this wall or thickness, or a range"})
MATERIAL: Argument = (
    ("--material",),
    {"metavar": "METAL", "help": "try it of another metal, in the sizes that is sold in"},
)
PLOT: Argument = (("--plot",), {"metavar": "FILE.svg", "help": "plot mass against utilisation"})
DRAWS: Argument = (("--draws",), {"type": int, "metavar": "N", "help": "how many vehicles to draw"})
SEED: Argument = (("--seed",), {"type": int, "metavar": "N", "help": "another seed gives other draws"})
WORKERS: Argument = (
    ("--workers",),
    {"type": int, "default": 0, "metavar": "N", "help": "processes to work on (default: one a processor)"},
)
WRITE: Argument = (("--write",), {"metavar": "NEW.toml", "help": "write the case with all changes made"})
EXECUTOR: Argument = (
    ("--executor",),
    {
        "metavar": "MODULE:NAME",
        "help": "work it off elsewhere: an executor such as concurrent.futures:ProcessPoolExecutor",
    },
)
WISHBONE: Argument = (("wishbone",), {"metavar": "WISHBONE", "help": "a wishbone"})
SIZE: Argument = (
    ("--size",),
    {"metavar": "THREAD", "help": "thread to compare at, such as M10; left out: the size it has"},
)


def screen(options: argparse.Namespace) -> int:
    """Stock sizes of a tube, bar, flat or bolt, lightest first, with the worst check of the whole case."""
    from strength.studies.screen import Wanted
    from strength.studies.screen import screen as study

    wanted = Wanted(
        od=_between(options, "od"),
        wall=_between(options, "wall"),
        material=options.material or "",
        sharing=tuple(options.sharing or ()),
    )
    return _sizes(options, lambda file, run: study(file, options.member, wanted, run=run))


def thickness(options: argparse.Namespace) -> int:
    """Stock thicknesses of a flat, thinnest first, with the worst check of the whole case."""
    from strength.studies.screen import Wanted
    from strength.studies.screen import thickness as study

    wanted = Wanted(
        wall=_between(options, "wall"),
        material=options.material or "",
        sharing=tuple(options.sharing or ()),
    )
    return _sizes(options, lambda file, run: study(file, options.member, wanted, run=run))


def leg(options: argparse.Namespace) -> int:
    """Legs of a weld: the least that passes, and the greatest that suits the wall."""
    from strength.studies.screen import leg as study

    return _sizes(options, lambda file, run: study(file, options.weld, run=run))


def payload(options: argparse.Namespace) -> int:
    """The greatest payload, what sets it, and how far each load can be raised."""
    refuse_outputs(options, "json")
    from strength.report.payload import exit_code, payload_document, payload_record
    from strength.report.progress import Steps
    from strength.studies.payload import payload as study

    case = case_of(options.case)
    with Steps("payload") as step:
        found = study(case, step=step)
    tell(options, lambda: payload_record(found), lambda _: payload_document(found, case.title, case.units))
    return exit_code(found)


def pivots(options: argparse.Namespace) -> int:
    """One wishbone with rod ends, ball joints, plain bushes and bearings at its pivots, side by side."""
    refuse_outputs(options, "json")
    from strength.report.pivots import pivots_document
    from strength.report.pivots_record import exit_code, pivots_record
    from strength.report.progress import Steps
    from strength.studies.pivots import pivots as study
    from strength.studies.typed import typed_case

    file = typed_case(options.case)
    with Steps("pivots") as step:
        found = study(file, options.wishbone, options.size or "", step)
    tell(options, lambda: pivots_record(found), lambda _: pivots_document(found, file.case.units))
    return exit_code(found)


def advise(options: argparse.Namespace) -> int:
    """What to change: the cheapest change of each part, and the fewest that bring everything under 1."""
    refuse_outputs(options, "json", "write")
    from strength.report.advise import advice_document, advice_record, exit_code
    from strength.report.progress import Steps
    from strength.studies.advise import advise as study
    from strength.studies.executors import executor_named
    from strength.studies.screened import Run
    from strength.studies.typed import typed_case

    file = typed_case(options.case)
    case = file.case
    with executor_named(options.executor or "") as executor, Steps("designs") as step:
        found = study(file, run=Run(executor=executor, step=step))
    texts: Texts = []
    if options.write and found.together:
        from strength.studies.patch import patched

        texts.append((options.write, patched(file, found.edits)))
    tell(
        options,
        lambda: advice_record(found),
        lambda _: advice_document(found, case.title, case.units),
        texts,
    )
    return exit_code(found)


def spread(options: argparse.Namespace) -> int:
    """Scatter of walls, welds, metals, masses and loads to the scatter of margins."""
    refuse_outputs(options, "json")
    from strength.report.progress import Steps
    from strength.report.spread import exit_code, spread_document, spread_record
    from strength.studies.executors import executor_named, workers
    from strength.studies.spread import spread as study

    case = case_of(options.case)
    named = executor_named(options.executor) if options.executor else workers(options.workers)
    with named as executor, Steps("draws") as step:
        found = study(case, draws=options.draws, seed=options.seed, executor=executor, step=step)
    tell(options, lambda: spread_record(found), lambda _: spread_document(found, case.title))
    return exit_code(found)


def _between(options: argparse.Namespace, name: str) -> "Between":
    """The range that an option names."""
    from strength.studies.candidates import between

    try:
        return between(getattr(options, name) or "")
    except QuantityError as error:
        raise OutputError(f"--{name}", f"cannot be read: {error}") from None


def _sizes(options: argparse.Namespace, study: "Callable[[TypedCase, Run], Screened]") -> int:
    """Sizes compared: table, record and plot."""
    refuse_outputs(options, *(name for name in ("json", "plot") if name in options))
    from strength.report.progress import Steps
    from strength.report.screened import exit_code, screened_document, screened_record
    from strength.studies.executors import executor_named
    from strength.studies.screened import Run
    from strength.studies.typed import typed_case

    file = typed_case(options.case)
    units = file.case.units
    with executor_named(getattr(options, "executor", None) or "") as executor, Steps("designs") as step:
        found = study(file, Run(executor=executor, step=step))
    texts: Texts = []
    if getattr(options, "plot", None):
        from strength.report.plot import plot

        texts.append((options.plot, plot(found, units)))
    tell(options, lambda: screened_record(found), lambda _: screened_document(found, units), texts)
    return exit_code(found)


STUDIES: tuple[Command, ...] = (
    Command("screen", screen, (CASE, MEMBERS, SHARING, OD, WALL, MATERIAL, JSON, PLOT, EXECUTOR)),
    Command("thickness", thickness, (CASE, FLAT, SHARING, WALL, MATERIAL, JSON, PLOT, EXECUTOR)),
    Command("leg", leg, (CASE, WELD, JSON, EXECUTOR)),
    Command("payload", payload, (CASE, JSON)),
    Command("spread", spread, (CASE, DRAWS, SEED, WORKERS, JSON, EXECUTOR)),
    Command("advise", advise, (CASE, WRITE, JSON, EXECUTOR)),
    Command("pivots", pivots, (CASE, WISHBONE, SIZE, JSON)),
)
