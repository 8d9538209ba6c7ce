"""The commands that show their working: one check by hand, and the published examples recomputed."""

import argparse
from typing import TYPE_CHECKING

from strength.cli_shared import CASE, JSON, Argument, Command, case_of, refuse_outputs, tell

if TYPE_CHECKING:
    from strength.report.document import Document

CHECK: Argument = (
    ("check",),
    {
        "metavar": "CHECK-ID",
        "help": "PART/KIND/LOAD as in a summary's record; a part lists its checks; loads/NAME: wheel forces",
    },
)


def explain(options: argparse.Namespace) -> int:
    """One check worked out by hand: formula, numbers with units, where each comes from."""
    refuse_outputs(options, "json")
    from strength.report.standing import exit_code
    from strength.run import run
    from strength.studies.explain.find import meant, without_rows

    outcome = run(case_of(options.case))
    loads = [load.name for load in outcome.loads]
    unchecked = without_rows(outcome.case, outcome.rows, outcome.not_checked)
    found = meant(options.check, outcome.rows, loads, unchecked)
    if found.load or found.loads:
        from strength.report.explained_loads import load_document, load_record, loads_document, loads_record
        from strength.studies.explain.loads import explain_load

        if found.loads:
            tell(
                options,
                lambda: loads_record(found.loads),
                lambda _: loads_document(found.loads, options.case),
            )
            return 0
        told = explain_load(outcome.case, found.load)
        tell(options, lambda: load_record(told), lambda _: load_document(told))
        return 0
    if found.row is None:
        from strength.report.explained import list_document, list_record

        tell(
            options,
            lambda: list_record(options.check, found.rows),
            lambda _: list_document(options.check, found.rows, options.case),
        )
        return exit_code(found.rows)
    from strength.report.explained import explained_document, explained_exit, explained_record
    from strength.studies.explain.register import explain_row

    if outcome.context is None:
        raise TypeError("a run keeps what its checks looked at")
    one = explain_row(outcome.context, found.row)

    def document(_: int) -> "Document":
        return explained_document(one)

    tell(options, lambda: explained_record(one), document)
    return explained_exit(one)


def verify(options: argparse.Namespace) -> int:
    """Published examples recomputed on this machine, beside the book's figures."""
    refuse_outputs(options, "json")
    from strength.report.verification import examples
    from strength.report.verified import verified_document, verified_exit, verified_record

    found = examples()
    tell(options, lambda: verified_record(found), lambda _: verified_document(found))
    return verified_exit(found)


EXPLAIN: tuple[Command, ...] = (
    Command("explain", explain, (CASE, CHECK, JSON)),
    Command("verify", verify, (JSON,)),
)
