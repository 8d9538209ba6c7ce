"""Published examples beside the book's figures, as a document and as a record."""

from collections.abc import Sequence
from typing import Any

from strength.report.cautions import CAUTIONS
from strength.report.display import percent
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section
from strength.report.standing import Standing
from strength.report.verification import SURE, Example, Figure
from strength.report.words import count

FAILED = 1


def verified_exit(found: Sequence[Example]) -> int:
    """1 where a figure differs, or where there is none to compare."""
    figures = [figure for example in found for figure in example.figures]
    return 0 if figures and all(figure.agrees for figure in figures) else FAILED


def verified_document(found: Sequence[Example]) -> Document:
    """A table per example; what each word on certainty means; how many agree."""
    figures = [figure for example in found for figure in example.figures]
    wrong = [figure for figure in figures if not figure.agrees]
    told = f"{len(figures) - len(wrong)} of {count(len(figures), 'figure')} agree"
    return Document(
        title="Published examples, recomputed on this machine",
        subtitle=f"{count(len(found), 'example')}; {told}",
        banners=_banners(wrong, figures),
        sections=(*(_section(example) for example in found), _words(figures)),
        closing=(told,),
        brief=True,
    )


def _banners(wrong: Sequence[Figure], figures: Sequence[Figure]) -> tuple[Banner, ...]:
    if not figures:
        return (
            Banner(kind="over", heading="NO EXAMPLE IS INSTALLED", lines=("Install the program again.",)),
        )
    if not wrong:
        return ()
    lines = (
        f"{count(len(wrong), 'figure')} of {len(figures)} lie further from the book than they may.",
        "Do not rely on this program on this machine before the reason is known.",
    )
    return (Banner(kind="over", heading="A PUBLISHED FIGURE IS NOT REPRODUCED", lines=lines),)


def _section(example: Example) -> Section:
    columns = (
        Column("figure", share=3),
        Column("book", figures=True),
        Column("here", figures=True),
        Column("off by", figures=True),
        Column("allowed", figures=True),
        Column("verdict", whole=True),
    )
    rows = tuple(_row(figure) for figure in example.figures)
    after = (example.note,) if example.note else ()
    return Section(
        title=example.title,
        lead=(f"{example.source} (cases/verification/{example.name})",),
        body=(Grid(columns=columns, rows=rows),),
        after=after,
    )


def _row(figure: Figure) -> tuple[Cell, ...]:
    standing = Standing.WITHIN if figure.agrees else Standing.OVER
    allowed = f"{100.0 * figure.tolerance:.3g} %"
    if figure.failure:
        return (
            Cell(figure.what, below=figure.failure),
            Cell(_shown(figure.book, figure.unit)),
            Cell("·"),
            Cell("·"),
            Cell(allowed),
            Cell("FAILS", standing=standing),
        )
    return (
        Cell(figure.what, below=f"{figure.sure}; {figure.why}"),
        Cell(_shown(figure.book, figure.unit)),
        Cell(_shown(figure.here, "")),
        Cell("exact" if figure.off < 1e-9 else percent(figure.off).replace("less than", "<")),
        Cell(allowed),
        Cell("agrees" if figure.agrees else "DIFFERS", standing=standing),
    )


def _shown(value: float, unit: str) -> str:
    text = f"{value:.5g}"
    if "e+" in text and abs(value) < 1e9:
        text = f"{value:.0f}"
    return f"{text} {unit}".rstrip()


def _words(figures: Sequence[Figure]) -> Section:
    used = {figure.sure for figure in figures}
    items = tuple((word, text) for word, text in SURE.items() if word in used)
    if not items:
        return Section(title="How sure a figure is")
    return Section(title="How sure a figure is", body=(Items(items=items),))


def verified_record(found: Sequence[Example]) -> dict[str, Any]:
    """Every figure with the book's, in the book's unit."""
    return {
        "format": 1,
        "cautions": list(CAUTIONS),
        "examples": [
            {
                "name": example.name,
                "title": example.title,
                "source": example.source,
                "note": example.note,
                "figures": [
                    {
                        "what": figure.what,
                        "book": figure.book,
                        "here": None if figure.failure else figure.here,
                        "unit": figure.unit,
                        "tolerance": figure.tolerance,
                        "why": figure.why,
                        "sure": figure.sure,
                        "agrees": figure.agrees,
                        "failure": figure.failure,
                    }
                    for figure in example.figures
                ],
            }
            for example in found
        ],
        "agrees": verified_exit(found) == 0,
    }
