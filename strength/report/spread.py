"""The scatter of margins, as a document and as a record."""

from typing import Any

from strength.report.display import percent
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.standing import Standing
from strength.report.study_words import margin_words, standing_of
from strength.report.words import count
from strength.studies.chance import Chance
from strength.studies.draws import CUT, DEFAULTS
from strength.studies.spread import Spread

SHOWN = 8
BARS, BAR = 16, 40  # classes and characters of the distribution
QUALITIES = {"good": "good", "ordinary": "ordinary", "poor": "poor"}
RARE = 0.01  # own choice: a chance of exceeding that is not called small any more


def exit_code(found: Spread) -> int:
    """0: no draw is over its limit; 1: some are; 3: none is, but a row is out of its source's range."""
    if found.chance.over:
        return 1
    return 0 if found.in_range else 3


def spread_record(found: Spread) -> dict[str, Any]:
    """The record of `spread`."""
    return {
        "format": 1,
        "draws": found.draws,
        "seed": found.scatter.seed,
        "nominal": found.nominal,
        **_chance_record(found.chance),
        "by_quality": {name: _chance_record(chance) for name, chance in found.by_quality.items()},
        "parts": [{"part": name, "chance": share} for name, share in found.parts],
        "matters": [
            {"kind": kind, "name": name, "rank_correlation": value} for kind, name, value in found.matters
        ],
        "scatter": found.scatter.deviations,
        "failed": found.failed,
        "utilisation": [value if value == value else None for value in found.utilisation],
    }


def _chance_record(found: Chance) -> dict[str, Any]:
    finite = {f"{share:g}": value for share, value in found.quantiles.items() if value != float("inf")}
    return {
        "over": found.over,
        "chance": found.chance,
        "chance_low": found.low,
        "chance_high": found.high,
        "quantiles": finite,
    }


def spread_document(found: Spread, title: str) -> Document:
    """The distribution, the chance of exceeding, what matters, and what was taken to scatter."""
    told = f"{count(found.draws, 'draw')}, seed {found.scatter.seed}"
    return Document(
        title=plain(f"Scatter of margins: {title}"),
        subtitle=f"{told}; utilisation as drawn on paper {found.nominal:.2f}",
        banners=_banners(found),
        sections=(_distribution(found), _qualities(found), *_parts(found), _matters(found), _assumed(found)),
        closing=(_closing(found),),
    )


def _banners(found: Spread) -> tuple[Banner, ...]:
    if not found.chance.over:
        return ()
    often = f"In {found.chance.over} of {found.draws} draws something is over its limit"
    lines = [f"{often}: a chance of {_interval(found.chance)}."]
    if found.failed:
        lines.append(f"{count(found.failed, 'draw')} of these could not be computed and count as over.")
    return (Banner(kind="over", heading="OVER THE LIMIT IN SOME DRAWS", lines=tuple(lines)),)


def _interval(chance: Chance) -> str:
    return f"{percent(chance.chance)} (95 % confidence: {percent(chance.low)} to {percent(chance.high)})"


def _distribution(found: Spread) -> Section:
    known = sorted(value for value in found.utilisation if value == value)
    rows = []
    if known:
        low, high = known[0], known[-1]
        width = (high - low) / BARS or 1.0
        counts = [0] * BARS
        for value in known:
            counts[min(int((value - low) / width), BARS - 1)] += 1
        most = max(counts)
        rows = [
            (
                Cell(f"{low + n * width:.2f}", standing=_over(low + n * width)),
                Cell("█" * round(BAR * each / most) or ("▏" if each else "")),
                Cell(str(each)),
            )
            for n, each in enumerate(counts)
        ]
    columns = (Column("from", figures=True), Column("", whole=True), Column("draws", figures=True))
    return Section(
        title="Worst utilisation of each draw",
        lead=(
            "Every draw is a whole vehicle with its own walls, welds, metals, masses and loads. "
            + _quantile_words(found.chance),
        ),
        body=(Grid(columns=columns, rows=tuple(rows)),) if rows else (),
    )


def _over(value: float) -> Standing:
    return Standing.OVER if value > 1.0 else Standing.WITHIN


def _quantile_words(chance: Chance) -> str:
    told = [f"{percent(share)} stay under {chance.quantiles[share]:.2f}" for share in (0.5, 0.95, 0.99)]
    return ", ".join(told) + "."


def _qualities(found: Spread) -> Section:
    columns = (
        Column("all welds"),
        Column("half under", figures=True),
        Column("95 % under", figures=True),
        Column("margin then", figures=True),
        Column("chance of exceeding"),
    )
    rows = tuple(
        (
            Cell(QUALITIES.get(name, name)),
            Cell(f"{chance.quantiles[0.5]:.2f}"),
            Cell(
                f"{chance.quantiles[0.95]:.2f}", standing=standing_of(chance.quantiles[0.95], in_range=True)
            ),
            Cell(margin_words(chance.quantiles[0.95])),
            Cell(_interval(chance), standing=Standing.OVER if chance.chance > RARE else Standing.WITHIN),
        )
        for name, chance in found.by_quality.items()
        for most in (chance.quantiles[0.95],)
    )
    return Section(
        title="By quality of the welds",
        lead=("The same draws with all welds good, ordinary or poor.",),
        body=(Grid(columns=columns, rows=rows),),
    )


def _parts(found: Spread) -> tuple[Section, ...]:
    if not found.parts:
        return ()
    items = tuple(
        (plain(name), f"over in {percent(share)} of the draws") for name, share in found.parts[:SHOWN]
    )
    return (Section(title="Parts that exceed", body=(Items(items=items),)),)


def _matters(found: Spread) -> Section:
    columns = (Column("what"), Column("rank correlation", figures=True))
    rows = tuple(
        (Cell(plain(f"{kind} of {name}" if kind != "load" else f"load {name!r}")), Cell(f"{value:+.2f}"))
        for kind, name, value in found.matters[:SHOWN]
    )
    lead = (
        "Rank correlation with the worst utilisation: +1 always raises it, -1 always lowers it, 0: no say.",
    )
    if not rows:
        return Section(
            title="What matters most", lead=("Nothing that scatters changes the worst utilisation.",)
        )
    return Section(title="What matters most", lead=lead, body=(Grid(columns=columns, rows=rows),))


def _assumed(found: Spread) -> Section:
    items = tuple(
        (
            key,
            f"{percent(value)}{' (from the case)' if key in found.scatter.given else ''}: {DEFAULTS[key][1]}",
        )
        for key, value in found.scatter.deviations.items()
    )
    return Section(
        title="What was taken to scatter",
        lead=(
            "Standard deviations about the nominal value, own choices; the case's table [spread] overrides.",
            f"Normal, cut off at {CUT:g} of them, each thing by itself, a Latin hypercube.",
        ),
        body=(Items(items=items),),
    )


def _closing(found: Spread) -> str:
    if found.chance.over:
        return f"Something exceeds its limit in {_interval(found.chance)} of all vehicles built like this."
    return (
        f"No draw exceeds its limit; the chance is under {percent(found.chance.high)} with 95 % confidence."
    )
