"""Rows of the plates of a bolt joint: the worst bolt of the worst plate."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.checks.bolts import BoltEffect
from strength.checks.context import Context
from strength.checks.joint_rows import worst_place
from strength.checks.verdict import Verdict
from strength.joints.bolted_plate import BoltedPlate

Array = NDArray[np.float64]


def at_plates(
    context: Context,
    effect: BoltEffect,
    kind: str,
    pulls: Sequence[Array],
    limits: Sequence[Array],
    source: str,
    *,
    plates: tuple[BoltedPlate, ...] | None = None,
    outside: str = "",
    note: str = "",
) -> Verdict:
    """A verdict over the plates, all unless some are named, and bolts.

    pulls: without load factor; limits: with their divisors; (designs, loads, bolts) per plate.
    outside: why the row is out of its source's range.
    """
    plates = effect.plates if plates is None else plates
    factor = context.factors.load()[:, None]
    shape = np.broadcast_shapes(*(array.shape for array in (*pulls, *limits)))
    demand = np.concatenate([spread(pull * factor, shape) for pull in pulls], axis=-1)
    limit = np.concatenate([spread(value, shape) for value in limits], axis=-1)
    covered = np.concatenate([spread(plate.heat.covered[:, None], shape) for plate in plates], axis=-1)
    places = tuple(
        plate.label + ("" if effect.is_single else f", {bolt}") for plate in plates for bolt in effect.places
    )
    notes = [outside, note, *_heat_notes(plates)]
    return worst_place(
        context,
        part=effect.bolt.name,
        kind=kind,
        unit="N",
        fails="parts",
        source=source,
        demand=demand,
        limit=limit,
        path_factor=effect.path_factor,
        places=places,
        in_range=covered & (not outside),
        note="; ".join(text for text in notes if text),
    )


def _heat_notes(plates: tuple[BoltedPlate, ...]) -> list[str]:
    found = []
    for plate in plates:
        if plate.heat.inside[0].any():
            tig = " x 0.8 (TIG)" if plate.heat.factor[0].min() < 1.0 else ""
            found.append(f"{plate.word}: welded strength{tig}")
        if not plate.heat.covered[0].all():
            found.append("no rule gives the width of the heat-affected length")
        if not plate.found and plate.metal.kind == "aluminium":
            found.append(f"{plate.word}: taken as not welded")
    return found


def near_edge(effect: BoltEffect, least: float) -> str:
    """Which plate has its edge nearer than so many hole diameters; empty: none."""
    close = [plate for plate in effect.plates if plate.entry.edge < least * plate.entry.hole * (1.0 - 1e-12)]
    if not close:
        return ""
    words = " and ".join(plate.word for plate in close)
    return f"{words}: edge distance under {least:g} holes (EN 1993-1-8 Table 3.3)"
