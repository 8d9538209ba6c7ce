"""Sizes of a part compared, as a document and as a record."""

from typing import Any

from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.study_words import (
    check_words,
    edit_words,
    margin_words,
    mass,
    mass_unit,
    spare,
    standing_of,
)
from strength.report.words import count, listed
from strength.studies.screened import Candidate, Screened

TITLES = {
    "weld": "Legs of",
    "bolt": "Bolt sizes for",
    "stud": "Stud sizes for",
    "member": "Stock sizes for",
    "strut": "Stock sizes for",
}
NOTHING_PASSES = 1
OUT_OF_RANGE = 3


def exit_code(found: Screened) -> int:
    """0: a size passes; 3: it does, with rows out of range; 1: none does."""
    if found.lightest is None:
        return NOTHING_PASSES
    return 0 if found.lightest.in_range else OUT_OF_RANGE


def screened_record(found: Screened) -> dict[str, Any]:
    """The record of `screen`, `thickness` and `leg`."""
    record: dict[str, Any] = {
        "format": 1,
        "part": found.part,
        "now": found.now,
        "candidates": [_candidate(each) for each in found.candidates],
        "lightest": None if found.lightest is None else found.lightest.size,
    }
    if found.greatest_sensible:
        record["greatest_sensible"] = found.greatest_sensible
    record["with_it"] = list(found.with_it)
    record["refused"] = [{"size": size, "why": why} for size, why in found.refused]
    return record


def _candidate(each: Candidate) -> dict[str, Any]:
    return {
        "size": each.size,
        "mass": each.mass,
        "utilisation": each.utilisation,
        "own": each.own,
        "governs": each.governs,
        "passes": each.passes,
        "in_range": each.in_range,
        "step_up": each.step_up,
        "sensible": each.sensible,
    }


def screened_document(found: Screened, system: str) -> Document:
    """A table of all sizes, what passes, and what to type for the lightest."""
    sections = [_sizes(found, system)]
    if found.refused:
        sections.append(_refused(found))
    if found.lightest is not None:
        sections.append(_to_type(found.lightest, found))
    return Document(
        title=plain(f"{TITLES[found.kind]} {found.part}"),
        subtitle=plain(f"now {found.now}; each size with the worst check of the whole case, {_order(found)}"),
        banners=_banners(found),
        sections=tuple(sections),
        closing=(_closing(found, system),),
    )


def _order(found: Screened) -> str:
    return "lightest first" if found.kind in ("member", "strut") else "smallest first"


def _banners(found: Screened) -> tuple[Banner, ...]:
    best = min(found.candidates, key=lambda each: each.utilisation)
    lightest = found.lightest
    if lightest is None:
        return (
            Banner(
                kind="over",
                heading="NO SIZE PASSES",
                lines=(
                    (
                        f"The least is {best.utilisation:.2f} of the limit, with {best.size}: "
                        f"{check_words(best.governs)}."
                    ),
                    "If that is another part, change it first: `strength advise` looks at all of them.",
                ),
            ),
        )
    if not lightest.in_range:
        why = (
            f"With {lightest.size} nothing is over its limit, but some rows of the case are out of their "
            "source's range and prove nothing: see `strength summary`."
        )
        return (Banner(kind="range", heading="OUT OF RANGE", lines=(why,)),)
    if spare(lightest.utilisation) < 0.25:
        line = f"{lightest.size} passes by {margin_words(lightest.utilisation)} only: look one size up."
        return (Banner(kind="thin", heading="THIN MARGIN", lines=(line,)),)
    return ()


def _sizes(found: Screened, system: str) -> Section:
    weighed = found.kind in ("member", "strut")
    unit = mass_unit(system)
    columns = (
        Column("size", whole=True),
        *((Column(f"mass {unit}", figures=True), Column("one up", figures=True)) if weighed else ()),
        Column("itself", figures=True),
        Column("whole", figures=True),
        Column("governs"),
    )
    told = [check_words(each.governs) for each in found.candidates]
    rows = tuple(
        _row(each, found, system, "as above" if n and words == told[n - 1] else words)
        for n, (each, words) in enumerate(zip(found.candidates, told, strict=True))
    )
    lead = ["Utilisation of the part itself and of the whole case: its worst check, which governs."]
    if weighed:
        lead.append(
            f"Mass of all members, joints left out; now {mass(found.mass_now, system)} {unit}. "
            "One up: what the next size costs."
        )
    if found.with_it:
        lead.append(f"With it go {listed(list(found.with_it), 8)}, whose size follows the same text.")
    if found.greatest_sensible:
        lead.append(
            f"A leg over {found.greatest_sensible} is more than the thinnest wall bears well (1.2 of it: "
            "common practice, no source)."
        )
    lead.append(f"As it stands: {found.utilisation_now:.2f}, {check_words(found.governs_now)}.")
    return Section(title="Sizes", lead=tuple(lead), body=(Grid(columns=columns, rows=rows),))


def _row(each: Candidate, found: Screened, system: str, governs: str) -> tuple[Cell, ...]:
    weighed = found.kind in ("member", "strut")
    how = standing_of(each.utilisation, in_range=each.in_range)
    below = []
    if found.lightest is each:
        below.append("least that passes" if not weighed else "lightest that passes")
    if each.size == found.now:
        below.append("as now")
    if not each.sensible:
        below.append("more than its wall bears")
    up = "" if each.step_up is None else mass(each.step_up, system, signed=True)
    masses = (Cell(mass(each.mass, system)), Cell(up)) if weighed else ()
    return (
        Cell(plain(each.size), ", ".join(below), how),
        *masses,
        Cell(f"{each.own:.2f}"),
        Cell(f"{each.utilisation:.2f}{how.value}".rstrip(), standing=how),
        Cell(governs),
    )


def _refused(found: Screened) -> Section:
    reasons: dict[str, list[str]] = {}
    for size, why in found.refused:
        reasons.setdefault(why.splitlines()[0], []).append(size)
    return Section(
        title="Not possible",
        lead=(f"{count(len(found.refused), 'size')} with which the case cannot be built.",),
        body=(Items(items=tuple((plain(listed(own, 4)), plain(why)) for why, own in reasons.items())),),
    )


def _to_type(lightest: Candidate, found: Screened) -> Section:
    return Section(
        title=f"To take {lightest.size}" if found.kind != "weld" else f"For a leg of {lightest.size}",
        lead=("Type in the case file:",),
        body=(Items(items=tuple(edit_words(edit) for edit in lightest.edits)),),
    )


def _closing(found: Screened, system: str) -> str:
    lightest = found.lightest
    if lightest is None:
        return f"None of {count(len(found.candidates), 'size')} brings the whole case under its limits."
    more = ""
    if found.kind in ("member", "strut"):
        more = f", {mass(lightest.mass - found.mass_now, system, signed=True)} {mass_unit(system)} beside now"
    word = "Lightest" if more else "Least"
    return plain(f"{word} that passes: {lightest.size}{more}; {check_words(lightest.governs)} governs.")
