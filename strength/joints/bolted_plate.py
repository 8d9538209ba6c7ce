"""A plate that bolts go through: its thickness, and its strengths at each bolt, heat counted in."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Flat
from strength.errors import CaseError, RangeError
from strength.joints.end_force import EndForce
from strength.joints.heated import Heated, heated, merged
from strength.library.metal import Metal, Strength
from strength.values import evolve, frozen

if TYPE_CHECKING:
    from strength.case.model import Bolt, Case, Plate
    from strength.frame.response import Layout
    from strength.joints.heat import HeatLength
    from strength.sections.bars import Bars

Array = NDArray[np.float64]

SAME = 1e-6  # mm: a plate this near to a flat's thickness is that flat
ACROSS = float(np.cos(np.radians(45.0)))  # own choice: a bolt nearer to a flat's normal goes through it
BRITTLE_BELOW = 0.10  # elongation: EN 1993-1-1 asks for more of a ductile steel


@frozen(kw_only=True, eq=False)
class BoltedPlate:
    """One plate of a joint; (designs, 1) or (designs, bolts) [mm, MPa].

    word: "carried plate" or what holds it. own_width: of the flat itself, where the bolts go through
    its thickness; None: judged by twice its edge distance. row: (bolts,) how many stand side by side
    across that width, each bolt counted in. found: which bars the plate is, as far as the case tells.
    """

    word: str
    entry: "Plate"
    metal: Metal
    thickness: Array
    ultimate: Array
    yield_: Array
    brittle: NDArray[np.bool_]  # (designs, 1)
    heat: Heated
    own_width: Array | None
    row: Array
    found: tuple[int, ...]

    @property
    def label(self) -> str:
        """The plate in a builder's words."""
        return f"{self.word} ({self.entry.thickness:g} mm {self.metal.name})"


def bolted_plates(
    case: "Case",
    layout: "Layout",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    bolt: "Bolt",
    end: EndForce,
    places: Array,
) -> tuple[BoltedPlate, ...]:
    """The plates of a bolt joint, its bolts at places (bolts, 3) from the end point [mm, body axes].

    The carried plate is heated where the carried part is; the other one where a part of its metal
    that passes there is. Raises CaseError for a thickness that a plate's metal is not held for.
    """
    axis = np.array(bolt.axis)
    words = ("carried plate", "holding plate" if bolt.shear_planes == 1 else "cheeks")
    found = []
    for n, (entry, word) in enumerate(zip(bolt.plates, words, strict=False)):
        metal = case.metals[entry.material]
        if n == 0:
            along = np.clip(places @ end.axes[0] * end.into, 0.0, end.length)
            at = along if end.into > 0.0 else end.length - along
            near = [(end.bar, at)]
        else:
            stack = sum(plate.thickness for plate in bolt.plates) + bolt.gap
            near = _passing(layout, bars, metal, end, places, stack)
        found.append(_plate(case, bars, heat, bolt, entry, word, metal, near, axis, end if n == 0 else None))
        if n == 0 and found[0].own_width is not None and len(places) > 1:
            found[0] = evolve(found[0], row=_side_by_side(places, end.axes[0], entry.hole))
    return tuple(found)


def _plate(
    case: "Case",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    bolt: "Bolt",
    entry: "Plate",
    word: str,
    metal: Metal,
    near: list[tuple[int, Array]],
    axis: Array,
    carried: EndForce | None,
) -> BoltedPlate:
    designs, count = bars.wall.shape[0], max(len(bolt.group), 1)
    row = _row(bolt, metal, entry)
    welded = [_or(value, parent) for value, parent in _pairs(row)]
    values = [np.full((designs, 1), value) for value in (row.yield_, row.ultimate, *welded)]
    thickness = np.full((designs, 1), entry.thickness)
    brittle = np.full((designs, 1), row.elongation is None or row.elongation < BRITTLE_BELOW)
    own_width = None
    for bar, _ in near:
        shape = bars.shapes[bar]
        if not isinstance(shape, Flat):
            continue
        if carried is not None and abs(axis @ carried.axes[1]) >= ACROSS:
            own_width = bars.depth[:, bar, None]
        if bars.metals[bar] == metal and abs(shape.thickness - entry.thickness) < SAME:
            thickness = bars.width[:, bar, None]
            values = [
                field[:, bar, None]
                for field in (bars.yield_, bars.ultimate, bars.yield_welded, bars.ultimate_welded)
            ]
            brittle = ~(bars.elongation[:, bar, None] >= BRITTLE_BELOW)
    hot = merged([heated(case, heat, metal, bar, at, at, designs) for bar, at in near], designs, count)
    return BoltedPlate(
        word=word,
        entry=entry,
        metal=metal,
        thickness=thickness,
        ultimate=hot.take(values[1], values[3]),
        yield_=hot.take(values[0], values[2]),
        brittle=brittle,
        heat=hot,
        own_width=own_width,
        row=np.ones(count),
        found=tuple(bar for bar, _ in near),
    )


def _row(bolt: "Bolt", metal: Metal, entry: "Plate") -> Strength:
    try:
        return metal.strength(entry.thickness)
    except RangeError as error:
        raise CaseError([(f"{bolt.path or bolt.name}.plates", f"{bolt.name}: {error}")]) from error


def _pairs(row: Strength) -> tuple[tuple[float | None, float], ...]:
    return ((row.yield_welded, row.yield_), (row.ultimate_welded, row.ultimate))


def _or(value: float | None, other: float) -> float:
    return other if value is None else value


def _passing(
    layout: "Layout", bars: "Bars", metal: Metal, end: EndForce, places: Array, stack: float
) -> list[tuple[int, Array]]:
    """Other bars of this metal that pass within the plates' stack of every bolt, and where on them."""
    found = []
    for bar, own in enumerate(bars.metals):
        if own is None or own.name != metal.name or bar == end.bar or own != metal:
            continue
        first = int(layout.first[bar])
        local = (end.at + places - layout.points[layout.start[first]]) @ layout.axes[first].T
        half = np.array([bars.width[0, bar], bars.depth[0, bar]]) / 2.0 + stack
        length = float(layout.bar_length[bar])
        beside = np.all(np.abs(local[:, 1:]) <= np.where(np.isfinite(half), half, 0.0))
        if beside and np.all(local[:, 0] >= -stack) and np.all(local[:, 0] <= length + stack):
            found.append((bar, np.clip(local[:, 0], 0.0, length)))
    return found


def _side_by_side(places: Array, along: Array, hole: float) -> Array:
    """How many holes a cut straight across the flat through each bolt's hole meets (bolts,)."""
    at = places @ along
    return np.asarray(np.count_nonzero(np.abs(at[:, None] - at) < hole, axis=1), dtype=np.float64)
