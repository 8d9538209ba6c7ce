"""`lug`: the eye of a carried plate pulled along its part, across it or between."""

from collections.abc import Iterator

import numpy as np

from strength.checks.bolts import bolt_effects
from strength.checks.context import Context
from strength.checks.joint_rows import worst_place
from strength.checks.verdict import Verdict

SOURCE = (
    "EN 1993-1-8:2005 Table 3.9 type A as a resistance; between both directions the exponent 1.6 of Melcon "
    "and Hoblit (from memory)"
)


def lug(context: Context) -> Iterator[Verdict]:
    """Bolts and pins with `lug`: pull along the part and to its side against 2 t fy (metal left); yield.

    A push toward the part needs no eye; bearing has it. Out of range where an edge is so near that
    Table 3.9 leaves no metal. `bearing`, `tear-out` and `net-section` go by the nearest edge and the whole
    force, and stay.
    """
    if not any(bolt.lug for bolt in context.case.bolts):
        return
    from strength.joints.lug import eye_resistance, oblique

    for effect in bolt_effects(context):
        if effect.bolt.lug is None or not effect.plates:
            continue
        end, side = effect.bolt.lug
        plate, hole = effect.plates[0], effect.plates[0].entry.hole
        x, axis = effect.end.axes[0], np.array(effect.bolt.axis)
        sideways = np.cross(axis, x)
        sideways = sideways / np.linalg.norm(sideways)
        factor = context.factors.load()
        # what the part hands over toward itself is what draws the bolt to the eye's end
        pull = np.maximum(effect.end.into * (effect.end.force @ x), 0.0) * factor
        across = np.abs(effect.end.force @ sideways) * factor
        tough, careful = (context.factors.on_yield(plate.metal.kind, brittle=flag) for flag in (False, True))
        by = np.where(plate.brittle, careful, tough)
        straight, level = (
            eye_resistance(plate.thickness, plate.yield_, ahead, beside, hole) / by
            for ahead, beside in ((end, side), (side, end))
        )
        use = oblique(pull / straight, across / level)
        thin = min(end, side) - hole / 2.0 <= 2.0 * hole / 3.0
        note = f"{end:g} mm to the end, {side:g} mm to the side"
        if thin:
            note += "; less metal round the hole than Table 3.9 takes for granted"
        yield worst_place(
            context,
            part=effect.bolt.name,
            kind="lug",
            unit="1",
            fails="bends",
            source=SOURCE,
            demand=use[..., None],
            limit=np.ones_like(use)[..., None],
            path_factor=effect.path_factor,
            places=(plate.label,),
            in_range=np.atleast_1d(plate.heat.covered.all(axis=1) & (not thin))[:, None, None],
            note=note,
            amplified=False,
        )
