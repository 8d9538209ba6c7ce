"""What the whole vehicle can stand: bends, brakes and slopes, with and without the payload."""

import math
from collections.abc import Sequence

from strength.report.display import Display
from strength.report.document import Cell, Column, Grid, Section
from strength.report.sides import ALIKE
from strength.vehicle.sheet import Limit

WORDS = {
    "corner left": "bend to the left",
    "corner right": "bend to the right",
    "brake": "braking on the level",
    "brake, 10 % descent": "braking down a 10 % slope",
    "side slope left": "side slope, left side low",
    "side slope right": "side slope, right side low",
}
EITHER = {"corner": "bend, either way", "side slope": "side slope, either side low"}
BEYOND = "over 6 g"


def limit_lines(limits: Sequence[Limit], display: Display) -> Section:
    """Three tables: bends with their speeds, braking, side slopes."""
    if not limits:
        return Section(
            title="Limits of the vehicle",
            after=("It is held by supports and stands on fewer than three wheels: it has no such limits.",),
        )
    told = _folded(limits)
    grids = (_bends(told, display), _brakes(told), _slopes(told))
    return Section(
        title="Limits of the vehicle",
        lead=("A rigid vehicle on a smooth road: soft tyres, bumps and a load that shifts tip it sooner.",),
        body=tuple(grid for grid in grids if grid is not None),
    )


def _folded(limits: Sequence[Limit]) -> list[tuple[Limit, str, str]]:
    """Each limit with its words and its payload; told once where sides, or laden and empty, agree."""
    by_key = {(limit.what, limit.with_payload): limit for limit in limits}
    found = []
    done: set[str] = set()
    for what in dict.fromkeys(limit.what for limit in limits):
        if what in done:
            continue
        pair = [by_key[what, payload] for payload in (True, False) if (what, payload) in by_key]
        other = what.replace("left", "right")
        twins = [by_key.get((other, limit.with_payload)) for limit in pair]
        words = WORDS.get(what, what)
        if other != what and all(
            twin is not None and _same(one, twin) for one, twin in zip(pair, twins, strict=True)
        ):
            done.add(other)
            words = EITHER[what.removesuffix(" left")]
        if len(pair) == 2 and _same(*pair):
            found.append((pair[0], words, ""))
        else:
            found += [(one, words, "with payload" if one.with_payload else "without payload") for one in pair]
    return found


def _same(one: Limit, two: Limit) -> bool:
    """Whether two limits read the same."""
    return one.governs == two.governs and all(
        (a is None) == (b is None) and (a is None or b is None or abs(a - b) <= ALIKE * max(a, b))
        for a, b in zip(_figures(one), _figures(two), strict=True)
    )


def _figures(limit: Limit) -> list[float | None]:
    """All figures of a limit."""
    return [limit.tips_at, limit.slides_at, limit.angle, *(speed for _, speed in limit.speed)]


def _at(value: float | None) -> Cell:
    """A limit in g, rounded down."""
    return Cell(BEYOND if value is None else f"{math.floor(100.0 * value + 1e-9) / 100.0:.2f} g")


def _bends(told: list[tuple[Limit, str, str]], display: Display) -> Grid | None:
    """Cornering: where it tips and slides, and how fast that is."""
    rows = []
    radii: tuple[str, ...] = ()
    for limit, words, payload in told:
        if limit.what.startswith("corner"):
            radii = tuple(radius for radius, _ in limit.speed)
            speeds = [Cell("–" if v is None else display.speed(v)) for _, v in limit.speed]
            rows.append((Cell(words, payload), _at(limit.tips_at), _at(limit.slides_at), *speeds))
    heads = (f"{display.speed_unit} at {radius}" for radius in radii)
    return _grid(("", "tips at", "slides at", *heads), rows)


def _brakes(told: list[tuple[Limit, str, str]]) -> Grid | None:
    """Braking: where the rear lifts and where it slides."""
    rows = [
        (Cell(words, payload), _at(limit.tips_at), _at(limit.slides_at))
        for limit, words, payload in told
        if limit.what.startswith("brake")
    ]
    return _grid(("", "rear lifts at", "slides at"), rows)


def _slopes(told: list[tuple[Limit, str, str]]) -> Grid | None:
    """Side slopes: how steep, and what happens beyond."""
    rows = []
    for limit, words, payload in told:
        if not limit.what.startswith("side slope"):
            continue
        if limit.angle is None:
            rows.append((Cell(words, payload), Cell("any"), Cell(""), Cell("")))
            continue
        rise = f"{math.floor(100.0 * math.tan(limit.angle) + 1e-9)} %"
        degrees = f"{math.floor(10.0 * math.degrees(limit.angle) + 1e-9) / 10.0:.1f}°"
        rows.append((Cell(words, payload), Cell(degrees), Cell(rise), Cell(limit.governs)))
    return _grid(("", "stands up to", "rise", "beyond that it"), rows)


def _grid(titles: tuple[str, ...], rows: Sequence[tuple[Cell, ...]]) -> Grid | None:
    """A table of figures under a first column of words."""
    if not rows:
        return None
    first, *rest = titles
    return Grid(columns=(Column(first), *(Column(title, figures=True) for title in rest)), rows=tuple(rows))
