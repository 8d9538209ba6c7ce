"""What to change, as a document and as a record."""

from typing import Any

from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.study_words import check_words, edit_words, margin_words, mass, mass_unit, standing_of
from strength.report.words import count
from strength.studies.advise import Advice, Over
from strength.studies.screened import passes


def exit_code(found: Advice) -> int:
    """0: nothing is over its limit; 1: something is, whatever may cure it; 3: a row is out of range."""
    if not passes(found.utilisation_now):
        return 1
    return 0 if found.in_range_now else 3


def advice_record(found: Advice) -> dict[str, Any]:
    """The record of `advise`; `together` is what to type, way by way."""
    return {
        "format": 1,
        "utilisation_now": found.utilisation_now,
        "over": [_over_record(each) for each in found.over],
        "together": [
            {
                "part": change.what,
                "change": change.how,
                "edits": [
                    dict(zip(("where", "value"), edit_words(edit), strict=True)) for edit in change.edits
                ],
            }
            for change in found.together
        ],
        "utilisation": found.utilisation,
        "governs": found.governs,
        "mass": found.mass,
        "passes": found.cured,
    }


def _over_record(each: Over) -> dict[str, Any]:
    best = each.best
    return {
        "part": each.part,
        "check": each.check,
        "utilisation": each.utilisation,
        "cured": each.cured,
        "change": None
        if best is None
        else {
            "part": best.change.what,
            "change": best.change.how,
            "utilisation": best.own,
            "whole": best.whole,
            "mass": best.mass,
        },
    }


def advice_document(found: Advice, title: str, system: str) -> Document:
    """The cheapest change of each part, then all together with what to type."""
    sections = [_singles(found, system)] if found.over else []
    if found.together:
        sections += [_together(found, system), _typed(found)]
    return Document(
        title=plain(f"What to change: {title}"),
        subtitle=f"{count(len(found.over), 'part')} over the limit, both sides counted as one",
        banners=_banners(found),
        sections=tuple(sections),
        closing=(_closing(found, system),),
    )


def _banners(found: Advice) -> tuple[Banner, ...]:
    if not found.over:
        return ()
    heading = f"OVER THE LIMIT: {count(len(found.over), 'part').upper()}"
    if found.cured:
        lines = [f"The changes below bring everything under its limit, to {found.utilisation:.2f} at most."]
    else:
        left = f"{check_words(found.governs)} is still at {found.utilisation:.2f}"
        lines = [
            f"No changes were found that cure all: with those below {left}.",
            "Change how it is laid out: a brace, a wider base, a shorter lever, less load.",
        ]
    return (Banner(kind="over", heading=heading, lines=tuple(lines)),)


def _singles(found: Advice, system: str) -> Section:
    unit = mass_unit(system)
    columns = (
        Column("part and check"),
        Column("now", figures=True),
        Column("cheapest single change"),
        Column("then", figures=True),
        Column(unit, figures=True),
    )
    return Section(
        title="Part by part",
        lead=("Each change by itself, worked through the whole case: the part's utilisation now and then.",),
        body=(Grid(columns=columns, rows=tuple(_row(each, system) for each in found.over)),),
    )


def _row(each: Over, system: str) -> tuple[Cell, ...]:
    best = each.best
    if best is None:
        told = (Cell("nothing that was tried helps"), Cell(""), Cell(""))
    else:
        how = standing_of(best.own, in_range=True)
        words = plain(f"{best.change.what}: {best.change.how}")
        told = (
            Cell(words, "" if each.cured else "helps most, and is not enough"),
            Cell(f"{best.own:.2f}{how.value}".rstrip(), standing=how),
            Cell(mass(best.mass, system, signed=True)),
        )
    return (Cell(check_words(each.check)), Cell(f"{each.utilisation:.2f}"), *told)


def _together(found: Advice, system: str) -> Section:
    unit = mass_unit(system)
    items = tuple((plain(change.what), plain(change.how)) for change in found.together)
    cured = "brings everything under its limit" if found.cured else "comes nearest"
    told = (
        f"The smallest set found that {cured}, evaluated as a whole: {count(len(items), 'change')}, "
        f"{mass(found.mass, system, signed=True)} {unit}, utilisation {found.utilisation:.2f} "
        f"(margin {margin_words(found.utilisation)}), set by {check_words(found.governs)}."
    )
    return Section(
        title="All together",
        lead=(told,),
        body=(Items(items=items),),
    )


def _typed(found: Advice) -> Section:
    return Section(
        title="What to type",
        lead=("In the case file, or let --write NEW.toml put it into a copy that keeps your comments:",),
        body=(Items(items=tuple(edit_words(edit) for edit in found.edits)),),
    )


def _closing(found: Advice, system: str) -> str:
    if not found.over:
        return "Nothing is over its limit: no change is needed."
    if not found.cured:
        return f"Not cured: the worst is still {found.utilisation:.2f}."
    return (
        f"{count(len(found.together), 'change')} and {mass(found.mass, system, signed=True)} "
        f"{mass_unit(system)} bring the worst from {found.utilisation_now:.2f} to {found.utilisation:.2f}."
    )
