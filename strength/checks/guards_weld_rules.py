"""Warnings about sizes of welds: least leg, least length, end craters, thin walls, one side only."""

import math
from collections.abc import Iterator
from weakref import WeakKeyDictionary

import numpy as np

from strength.case.model import Warned, Weld
from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE
from strength.library import Metal
from strength.values import frozen

LEAST_LEGS = ((6.0, 3.0), (13.0, 5.0), (19.0, 6.0), (float("inf"), 8.0))  # thinner part up to, leg [mm]
LEAST_LENGTH, LEAST_THROATS = 30.0, 6.0  # mm, throats: EN 1993-1-8 4.5.1(2)
ALUMINIUM_THROATS = 8.0  # EN 1999-1-1 8.6.3
THROAT = float(1.0 / np.sqrt(2.0))
TUBE_WALL, PART, THIN_THROAT = 2.5, 4.0, 3.0  # mm: EN 1993-1-8 7.1.1, 4.1, 4.5.2
LIGHT_PART = 1.5  # mm: EN 1999-1-1, scope
HARDLY = 1.0 - 1e-9


@frozen(eq=False)
class Joined:
    """One of the parts that a weld joins: its metal, its shape (None: a plate) and thickness [mm]."""

    metal: Metal | None
    shape: Shape | None
    thickness: float


_known: "WeakKeyDictionary[Context, dict[str, tuple[Joined, ...]]]" = WeakKeyDictionary()


def joined(context: Context, weld: Weld) -> tuple[Joined, ...]:
    """The welded member, and what it is welded onto where that is said; nan: a thickness not known."""
    if context not in _known:
        bars = context.bars
        least = bars.wall.min(axis=0).tolist()
        parts = {
            name: Joined(metal, shape, wall)
            for name, metal, shape, wall in zip(bars.names, bars.metals, bars.shapes, least, strict=True)
        }
        _known[context] = {each.name: _joined(context, each, parts) for each in context.case.welds}
    return _known[context][weld.name]


def _joined(context: Context, weld: Weld, parts: dict[str, Joined]) -> tuple[Joined, ...]:
    if weld.onto is None:
        return (parts[weld.member],)
    if isinstance(weld.onto, str):
        return parts[weld.member], parts[weld.onto]
    plate = Joined(context.case.metals[weld.onto.material], None, weld.onto.thickness)
    return parts[weld.member], plate


def thinner(parts: tuple[Joined, ...]) -> float:
    """Thickness of the thinner part joined [mm]; inf where none is known."""
    known = [part.thickness for part in parts if part.thickness == part.thickness]
    return min(known, default=float("inf"))


def least_leg(context: Context) -> Iterator[Warned]:
    """Fillets on steel under the least leg for the thinner part, which need not exceed that part."""
    for weld in context.case.welds:
        parts = joined(context, weld)
        if weld.process == "braze" or not _is_steel(parts):
            continue
        thin = thinner(parts)
        if not math.isfinite(thin):
            continue
        least = min(next(leg for up_to, leg in LEAST_LEGS if thin <= up_to + 1e-9), thin)
        if weld.leg < least * HARDLY:
            text = (
                f"a leg of {weld.leg:g} mm where the thinner part is {thin:.3g} mm: at least {least:.3g} mm, "
                "or it cools too fast (AISC 360-16 Table J2.4; no more than the part itself)"
            )
            yield Warned(part=weld.name, text=text)


def short_weld(context: Context) -> Iterator[Warned]:
    """Lines too short to count: under 30 mm or 6 throats (aluminium 8 throats), under 4 legs."""
    for weld in context.case.welds:
        lengths = line_lengths(context, weld)
        if not lengths:
            continue
        short, throat = min(lengths), weld.leg * THROAT
        light = any(
            part.metal is not None and part.metal.kind == "aluminium" for part in joined(context, weld)
        )
        if light:
            least, source = ALUMINIUM_THROATS * throat, "EN 1999-1-1 8.6.3, from memory: it is not to count"
        else:
            least = max(LEAST_LENGTH, LEAST_THROATS * throat)
            source = "EN 1993-1-8 4.5.1(2), from memory: it is not to carry load"
        if short < least * HARDLY:
            text = f"a weld line of {short:.3g} mm: under {least:.3g} mm ({source})"
            if short < 4.0 * weld.leg * HARDLY:
                text += f"; under 4 legs only {short / 4.0:.2g} mm of leg would count (AISC 360-16 J2.2b)"
            yield Warned(part=weld.name, text=text)


def end_craters(context: Context) -> Iterator[Warned]:
    """Lines with free ends, which the allowable basis counts at full length."""
    if context.factors.method != "allowable":
        return
    for weld in context.case.welds:
        if weld.pattern != "around" and _has_free_end(weld):
            text = (
                "its lines are counted at full length: fill the crater at each end or run the weld round the "
                "corner; else take a throat off each end (EN 1993-1-8 4.5.1(1); limit-state does so)"
            )
            yield Warned(part=weld.name, text=text)


def outside_scope(context: Context) -> Iterator[Warned]:
    """Walls, parts and throats thinner than the codes the formulas are from."""
    for weld in context.case.welds:
        if weld.process == "braze":
            continue
        parts = joined(context, weld)
        if not _is_steel(parts):
            told = [f"parts under {LIGHT_PART:g} mm"] if thinner(parts) < LIGHT_PART * HARDLY else []
            code = "EN 1999-1-1 (scope)"
        else:
            walls = [part.thickness for part in parts if isinstance(part.shape, Tube | Box)]
            told = [
                words
                for words, thin, least in (
                    (f"tube walls under {TUBE_WALL:g} mm (7.1.1)", min(walls, default=PART), TUBE_WALL),
                    (f"parts under {PART:g} mm (4.1)", thinner(parts), PART),
                    (f"throats under {THIN_THROAT:g} mm (4.5.2)", weld.leg * THROAT, THIN_THROAT),
                )
                if thin < least * HARDLY
            ]
            code = "EN 1993-1-8"
        if told:
            text = (
                f"below what {code} covers: {', '.join(told)}; thin trike tube lies there, and the same "
                "formulas are used for want of others: break sample welds of your own"
            )
            yield Warned(part=weld.name, text=text)


def one_sided(context: Context) -> Iterator[Warned]:
    """A flat welded along one face only, and bent or pushed across that face."""
    shapes = dict(zip(context.bars.names, context.bars.shapes, strict=True))
    flats = [
        weld
        for weld in context.case.welds
        if weld.pattern == "lines" and isinstance(shapes[weld.member], Flat) and _on_one_face(weld)
    ]
    if not flats:
        return
    from strength.checks.weld_groups import forces_through

    every = tuple(seat for seat in context.seats if seat.weld in flats)
    forces = np.abs(forces_through(context, every)).max(axis=(0, 1))
    for seat, (n, vy, vz, _t, my, mz) in zip(every, forces, strict=True):
        thick = float(context.bars.width[0, seat.bar])
        if max(mz, vy * thick) > LITTLE * max(n * thick, vz * thick, my, mz, vy * thick):
            text = (
                f"{seat.weld.member} is welded along one face only and is bent across its thickness, which "
                "opens the root of the weld: weld both faces (EN 1993-1-8 4.12)"
            )
            yield Warned(part=seat.weld.name, text=text)


def line_lengths(context: Context, weld: Weld) -> list[float]:
    """Length of each straight line, or of a closed line as a whole [mm]; empty where it is not known."""
    if weld.pattern == "lines":
        return [math.hypot(y2 - y1, z2 - z1) for y1, z1, y2, z2 in weld.lines]
    bar = context.bars.names.index(weld.member)
    shape = context.bars.shapes[bar]
    deep, wide = float(context.bars.depth[:, bar].min()), float(context.bars.width[:, bar].min())
    if weld.pattern == "sides":
        return [deep] if isinstance(shape, Flat | Box) else []
    if isinstance(shape, Tube | Bar):
        return [math.pi * deep]
    return [2.0 * (deep + wide)] if isinstance(shape, Flat | Box) else []


def _is_steel(parts: tuple[Joined, ...]) -> bool:
    return all(part.metal is None or part.metal.kind != "aluminium" for part in parts)


def _has_free_end(weld: Weld) -> bool:
    """Whether any end of any line lies on no other line's end; two sides never meet."""
    if weld.pattern == "sides":
        return True
    ends = [(round(y, 2), round(z, 2)) for y1, z1, y2, z2 in weld.lines for y, z in ((y1, z1), (y2, z2))]
    return any(ends.count(end) == 1 for end in ends)


def _on_one_face(weld: Weld) -> bool:
    """Whether all lines lie on one side of the flat's middle plane."""
    sides = [np.sign(round(y, 6)) for y1, _, y2, _ in weld.lines for y in (y1, y2)]
    return all(side > 0 for side in sides) or all(side < 0 for side in sides)
