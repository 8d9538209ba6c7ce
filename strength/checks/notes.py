"""What a row says beside its figures: holes, shoulders, heat, amplified moments."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.arrays import distinct
from strength.checks import concentration
from strength.checks.section_groups import smaller_diameter
from strength.checks.strips import outside_strip

if TYPE_CHECKING:
    from strength.checks.context import Context
    from strength.checks.places import Gaps

CUT_THREAD = 3.8  # Kf of a cut thread, property class 6.6 and up: Shigley, Table 8-16 (from memory)


def station_notes(context: "Context", number: int, where: NDArray[np.intp]) -> tuple[str, ...]:
    """Notes of one bar's rows, one per load; where: (loads,) station among the bar's own."""
    stations = context.stations
    first = stations.of(number).start
    strip = outside_strip(context, number)
    kept = {n: _joined(_at(context, number, first + n), strip) for n in distinct(where).tolist()}
    return tuple(_joined(kept[int(n)], amplified_note(context, load)) for load, n in enumerate(where))


def amplified_note(context: "Context", load: int) -> str:
    """Says by how much bending moments were raised for frame buckling; empty where they were not."""
    factor = context.raised[load]
    return f"bending moments x {factor:.3g} for frame buckling" if factor > 1.0 else ""


def by_load(context: "Context", note: str) -> tuple[str, ...]:
    """A note for every load, with the amplification of those loads that have one."""
    every = range(len(context.raised))
    if max(context.raised) <= 1.0:
        return tuple(note for _ in every)
    return tuple(_joined(note, amplified_note(context, load)) for load in every)


def _joined(*parts: str) -> str:
    return "; ".join([part for part in parts if part])


def _at(context: "Context", number: int, station: int) -> str:
    stations = context.stations
    parts = []
    if stations.gaps[station]:
        parts.append(hole_note(context, number, stations.gaps[station]))
    if stations.shoulder[station] >= 0:
        parts.append(shoulder_note(context, number, int(stations.shoulder[station])))
    if stations.heated[0, station] and _loses(context, number, station):
        parts.append("welded strength" if stations.kept[0, station] == 1.0 else "welded strength x 0.8 (TIG)")
    if stations.uncovered[0, number]:
        parts.append("no rule gives the width of the heat-affected length")
    return _joined(*parts)


def _loses(context: "Context", number: int, station: int) -> bool:
    bars = context.bars
    return bool(
        bars.yield_welded[0, number] < bars.yield_[0, number]
        or bars.ultimate_welded[0, number] < bars.ultimate[0, number]
        or context.stations.kept[0, station] < 1.0
    )


def hole_note(context: "Context", number: int, gaps: "Gaps") -> str:
    """Stress concentration of the largest hole in a plane across a flat."""
    hole = context.case.holes[max(gaps, key=lambda gap: gap[1])[0]]
    sides = float(context.bars.depth[0, number]), float(context.bars.width[0, number])
    width, thickness = sides if hole.across == "thickness" else sides[::-1]
    tension = concentration.hole_in_tension(hole.diameter, width)
    bending = concentration.hole_in_bending(hole.diameter, width, thickness)
    text = f"net section; Kt {_told(tension)} in tension, {_told(bending)} in plate bending"
    if len(gaps) > 1:
        text += f", of {hole.name} alone"
    return text


def shoulder_note(context: "Context", number: int, shoulder: int) -> str:
    """Stress concentration of a shoulder, on its smaller diameter."""
    entry = context.case.shoulders[shoulder]
    diameter = context.bars.depth[:1, number]
    smaller = float(smaller_diameter(entry, diameter)[0])
    if entry.root is not None or entry.fillet is None:
        return f"on the core, {smaller:.4g} mm; Kf {CUT_THREAD:g} (cut thread)"
    larger = max(entry.larger, float(diameter[0]))
    found = [
        f"{_told(factor(larger, smaller, entry.fillet))} in {word}"
        for word, factor in (
            ("bending", concentration.shoulder_in_bending),
            ("tension", concentration.shoulder_in_tension),
            ("torsion", concentration.shoulder_in_torsion),
        )
    ]
    return f"on {smaller:.4g} mm; Kt " + ", ".join(found)


def _told(found: concentration.Found) -> str:
    return f"{found[0]:.2f}" if found[1] else f"{found[0]:.2f} (out of its range)"
