"""The greatest payload, as a document and as a record."""

from typing import Any

from strength.report.document import Banner, Cell, Column, Document, Grid, Section, plain
from strength.report.standing import ROUNDING, Standing
from strength.report.study_words import check_words
from strength.studies.payload import Payload, Reach
from strength.units import show


def exit_code(found: Payload) -> int:
    """0: the payload is carried; 1: something is over its limit with it; 3: a row is out of range."""
    if not found.utilisation_now <= 1.0 + ROUNDING:
        return 1
    return 0 if found.in_range_now else 3


def payload_record(found: Payload) -> dict[str, Any]:
    """The record of `payload`; null: no check limits it."""
    return {
        "format": 1,
        "payload": found.payload,
        "governs": found.governs,
        "now": found.now,
        "utilisation_now": found.utilisation_now,
        "following": found.following,
        "following_governs": found.following_governs,
        "over_at_none": found.over_at_none,
        "falls_with_more": [list(pair) for pair in found.more_helps],
        "loads": [
            {"load": each.load, "factor": each.factor, "governs": each.governs} for each in found.loads
        ],
    }


def payload_document(found: Payload, title: str, system: str) -> Document:
    """The payload, what sets it, what comes next, and how far each load can be raised."""
    return Document(
        title=plain(f"Greatest payload: {title}"),
        subtitle=f"now {show(found.now, 'mass', system)}, utilisation {found.utilisation_now:.2f}",
        banners=_banners(found, system),
        sections=(_loads(found.loads),),
        closing=_closing(found, system),
    )


def _banners(found: Payload, system: str) -> tuple[Banner, ...]:
    banners = []
    if found.over_at_none:
        why = f"Without any payload {check_words(found.governs)} is over its limit: no payload can be given."
        banners.append(Banner(kind="over", heading="OVER THE LIMIT WHEN EMPTY", lines=(why,)))
    elif exit_code(found) == 1:
        why = f"The payload of the case is over the limit: {check_words(found.governs)}."
        banners.append(
            Banner(kind="over", heading="OVERLOADED", lines=(why, "Do not build or ride it like this."))
        )
    if found.more_helps:
        places = ", ".join(
            f"{show(low, 'mass', system)} to {show(high, 'mass', system)}" for low, high in found.more_helps
        )
        why = (
            f"Utilisation falls with more payload from {places}: it is not least when empty. The figure "
            "holds from none up to it."
        )
        banners.append(Banner(kind="range", heading="MORE PAYLOAD IS NOT ALWAYS WORSE", lines=(why,)))
    return tuple(banners)


def _loads(loads: tuple[Reach, ...]) -> Section:
    columns = (Column("load"), Column("factor", figures=True), Column("what comes to its limit"))
    rows = tuple(
        (
            Cell(plain(each.load)),
            Cell("none" if each.factor is None else f"{each.factor:.2f}", standing=_standing(each)),
            Cell(check_words(each.governs)),
        )
        for each in sorted(loads, key=lambda each: float("inf") if each.factor is None else each.factor)
    )
    return Section(
        title="How far each load can be raised",
        lead=("All forces of the load times this factor bring its worst row to its limit.",),
        body=(Grid(columns=columns, rows=rows),),
    )


def _standing(each: Reach) -> Standing:
    return Standing.OVER if each.factor is not None and each.factor < 1.0 - ROUNDING else Standing.WITHIN


def _closing(found: Payload, system: str) -> tuple[str, ...]:
    if found.payload is None:
        return ("No check limits the payload: it loads nothing that is checked.",)
    lines = [
        plain(
            f"Greatest payload: {show(found.payload, 'mass', system)}, set by {check_words(found.governs)}."
        )
    ]
    if found.following is not None and not found.over_at_none:
        more = show(found.following - found.payload, "mass", system)
        lines.append(
            plain(f"With that part made stronger {more} more, then {check_words(found.following_governs)}.")
        )
    return tuple(lines)
