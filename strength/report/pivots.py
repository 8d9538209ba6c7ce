"""Kinds of pivot of one wishbone side by side, as a document."""

import math
from collections.abc import Callable

from strength.checks.verdict import Row
from strength.report.display import Display, margin
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.pivots_record import exit_code
from strength.report.study_words import check_words, margin_words, standing_of
from strength.report.words import listed
from strength.studies.pivots import FREE, HINGED, Passing, PivotKind, Pivots, Worst

ALIKE = (
    0.05  # of the lesser utilisation: nearer than that the numbers do not tell two kinds apart (own choice)
)
HELD = {FREE: "free to turn: rod ends, ball joints", HINGED: "hinged: bushes, bearings"}
NOTHING = 1e-6
NOTHING_HELD = 1.0  # N*mm


def pivots_document(found: Pivots, system: str) -> Document:
    """Forces, what each kind makes of them, how far they turn, and which one the numbers favour."""
    show = Display(system)
    failed = [each for each in found.kinds if each.why]
    sections = [_forces(found, show), _kinds(found), _own(found, show), _angles(found)]
    if failed:
        items = tuple((each.name, plain(each.why)) for each in failed)
        sections.append(Section(title="Not possible", body=(Items(items=items),)))
    sections.append(
        Section(
            title="Not in these numbers",
            after=(
                (
                    "Wear, play and dirt; what a bush, a bearing or a ball itself bears and how far it may "
                    "turn (ask its maker); binding of pivots that are no longer in line after welding."
                ),
            ),
        )
    )
    return Document(
        title=plain(f"Pivots of {found.part}"),
        subtitle=plain(f"now {found.now}; the whole case run with each kind at {found.size}"),
        banners=_banners(found),
        sections=tuple(section for section in sections if section is not None),
        closing=_closing(found, show),
    )


def _banners(found: Pivots) -> tuple[Banner, ...]:
    code = exit_code(found)
    if code == 1:
        line = (
            "With none of these pivots are the arm and its pivots under their limits: change the arm first."
        )
        return (Banner(kind="over", heading="NO KIND OF PIVOT PASSES", lines=(line,)),)
    if code:
        line = "Some rows of the arm or its pivots are out of their source's range: see `strength summary`."
        return (Banner(kind="range", heading="OUT OF RANGE", lines=(line,)),)
    return ()


def _greatest(kind: PivotKind, side: str, of: Callable[[Passing], float]) -> Passing:
    return max((each for each in kind.passing if each.side == side), key=of)


def _forces(found: Pivots, show: Display) -> Section | None:
    """The greatest force along, across and moment about each pivot, whatever the load."""
    columns = (
        Column("pivot", share=3),
        Column(f"along {show.force_unit}", figures=True),
        Column(f"across {show.force_unit}", figures=True),
        Column(f"tipping {show.quantity(1.0, 'N*mm').partition(' ')[2]}", figures=True),
        Column("across is greatest in", share=2),
    )
    rows = []
    for held, kind in _by_hold(found).items():
        for side in ("front", "rear"):
            along = abs(_greatest(kind, side, lambda each: abs(each.along)).along)
            across = _greatest(kind, side, lambda each: each.across)
            tipping = _greatest(kind, side, lambda each: each.tipping).tipping
            rows.append(
                (
                    Cell(side, HELD[held]),
                    Cell(show.force(along)),
                    Cell(show.force(across.across)),
                    Cell(show.quantity(tipping, "N*mm").partition(" ")[0] if tipping > NOTHING_HELD else "0"),
                    Cell(plain(across.load)),
                )
            )
    if not rows:
        return None
    return Section(
        title="What goes through each pivot",
        lead=(
            (
                "Along: on the line through both pivots. Across: square to it. Tipping: the moment about "
                "what is square to it, which only a hinge holds. About that line all of them turn freely. "
                "Each the greatest of all loads."
            ),
        ),
        body=(Grid(columns=columns, rows=tuple(rows)),),
    )


def _by_hold(found: Pivots) -> dict[str, PivotKind]:
    """The first computed kind of each way of holding the arm."""
    kinds: dict[str, PivotKind] = {}
    for each in found.kinds:
        if each.passing:
            kinds.setdefault(each.held, each)
    return kinds


def _kinds(found: Pivots) -> Section:
    columns = (
        Column("pivots", whole=True),
        Column("margin", figures=True),
        Column("the arm's worst"),
        Column("margin", figures=True),
        Column("the pivots' worst"),
    )
    rows = []
    for each in found.kinds:
        if each.worst is None:
            rows.append((Cell(each.name), Cell("·"), Cell("not possible"), Cell("·"), Cell("")))
        else:
            rows.append((Cell(each.name), *_pair(each.arm), *_pair(each.pivots)))
    return Section(
        title="What each kind makes of the arm",
        lead=(
            (
                "The arm: its legs, cross tube and welds. The pivots: their studs and bolts, as far as they "
                "are checked. A margin below 0 is over the limit."
            ),
        ),
        body=(Grid(columns=columns, rows=tuple(rows)),),
    )


def _pair(worst: Worst | None) -> tuple[Cell, Cell]:
    if worst is None:
        return Cell("·"), Cell("nothing is checked")
    how = standing_of(worst.utilisation, in_range=worst.in_range)
    return (
        Cell(f"{margin_words(worst.utilisation)}{how.value}".rstrip(), standing=how),
        Cell(check_words(worst.governs)),
    )


def _own(found: Pivots, show: Display) -> Section | None:
    """Bending of shanks, and what a bush or a bearing would have to take."""
    items = []
    for each in found.kinds:
        if each.shank is not None:
            items.append((each.name, _shank_words(each.shank, show)))
        elif each.passing and each.name == "plain bushes":
            most = max(each.passing, key=lambda one: one.edge)
            items.append(
                (
                    each.name,
                    (
                        f"each presses with up to {show.quantity(most.edge, 'MPa')} at its edge, "
                        f"{found.diameter:g} mm by {found.bush:g} mm (own choice; {most.side}, "
                        f"{plain(most.load)})"
                    ),
                )
            )
        elif each.passing:
            most = max(each.passing, key=lambda one: one.bearing)
            thrust = max(abs(one.along) for one in each.passing)
            items.append(
                (
                    each.name,
                    (
                        f"the harder worked of two, {found.bush:g} mm apart (own choice), takes "
                        f"{show.quantity(most.bearing, 'N')} across ({most.side}, {plain(most.load)}); up to "
                        f"{show.quantity(thrust, 'N')} along"
                    ),
                )
            )
    if not items:
        return None
    return Section(title="What the pivots themselves take", body=(Items(items=tuple(items)),))


def _shank_words(row: Row, show: Display) -> str:
    return plain(
        f"shank bent to {show.quantity(row.demand, 'MPa')} of {show.quantity(row.limit, 'MPa')}, margin "
        f"{margin(row.margin)} ({row.part}, {row.load})"
    )


def _angles(found: Pivots) -> Section | None:
    items = []
    for held, kind in _by_hold(found).items():
        swing = max(kind.passing, key=lambda each: abs(each.swing))
        tilt = max(kind.passing, key=lambda each: each.tilt)
        items.append(
            (
                HELD[held],
                (
                    f"{_degrees(swing.swing)} about the pivot line ({plain(swing.load)}), "
                    f"{_degrees(tilt.tilt)} square to it ({plain(tilt.load)})"
                ),
            )
        )
    if not items:
        return None
    return Section(
        title="How far the legs turn as a load comes on",
        lead=(
            (
                "From the drawing, small angles, its pivots and ball as one body, beside the part that holds "
                "it. A rod end turns freely about its bolt and tilts by the second; a ball joint across the "
                "arm tilts by the first."
            ),
        ),
        body=(Items(items=tuple(items)),),
    )


def _degrees(angle: float) -> str:
    return f"{abs(math.degrees(angle)):.2f}°"


def _closing(found: Pivots, show: Display) -> tuple[str, ...]:
    """Which kind the numbers favour, and why, in words that stay within what was computed."""
    order = found.favoured
    if not order:
        return ("No kind of pivot could be computed.",)
    best = order[0]
    least = best.worst
    if least is None:
        return ("Nothing of this arm is checked.",)
    alike = [
        each
        for each in order[1:]
        if each.worst and each.worst.utilisation <= least.utilisation * (1.0 + ALIKE) + NOTHING
    ]
    names = listed([best.name, *(each.name for each in alike)])
    verb = "favour" if len(order) > len(alike) + 1 else "do not tell apart"
    lines = [
        (
            f"By margin alone the numbers {verb} {names}: the worst of arm and pivots is "
            f"{check_words(least.governs)}, margin {margin_words(least.utilisation)}."
        )
    ]
    lines += [
        f"With {each.name} it is {check_words(each.worst.governs)}, margin "
        f"{margin_words(each.worst.utilisation)}."
        for each in order
        if each is not best and each not in alike and each.worst
    ]
    hinged = _by_hold(found).get(HINGED)
    if hinged is not None and any(each.held == HINGED for each in (best, *alike)):
        most = max(each.tipping for each in hinged.passing)
        if most > NOTHING_HELD:
            lines.append(
                f"A hinge must hold up to {show.quantity(most, 'N*mm')} of tipping; whether a bush or "
                "bearing bears that was not checked."
            )
    return tuple(plain(line) for line in lines)
