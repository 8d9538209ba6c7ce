"""`weld-throat` of welds that count the force's direction in, or their ultimate strength in their plane."""

import numpy as np

from strength.arrays import spread
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.verdict import Verdict
from strength.checks.weld_groups import forces_through
from strength.checks.welds import WeldEffect
from strength.joints.directional import directional_peak
from strength.joints.draw import THROAT, drawn
from strength.joints.fillet import QUALITY, WELD_STRESS
from strength.joints.in_plane import in_plane
from strength.joints.traction import Pull, pull
from strength.joints.weld_line import WeldLine, measured
from strength.joints.words import sector, sides

KIND = "weld-throat"
DIRECTIONAL = "AISC 360-16 J2.4, 0.60 x filler strength x (1 + 0.5 sin^1.5 of the angle to the weld)"
ULTIMATE = "AISC 360-16 J2.4(b)(2) and Manual part 8, instantaneous centre of rotation"


def by_direction(context: Context, effect: WeldEffect) -> Verdict | None:
    """The verdict of a weld with `directional` or `method = "ultimate"`; None of any other.

    Both count on the allowable basis only; reading a case refuses them elsewhere.
    """
    weld = effect.weld
    if context.factors.method != "allowable" or not (weld.directional or weld.method == "ultimate"):
        return None
    line, through = _line(context, effect)
    return (_ultimate if weld.method == "ultimate" else _directional)(context, effect, line, through)


def _line(context: Context, effect: WeldEffect) -> tuple[WeldLine, Pull]:
    """The weld's line and the force per length along it, from the very forces of the line method."""
    seat = effect.seat
    forces = forces_through(context, (seat,))
    designs = max(forces.shape[0], context.bars.wall.shape[0])
    (group,) = drawn((seat,), context.bars, cut=False, designs=designs)
    line = measured(group.pieces, group.cylinder)
    forces = spread(forces[:, :, 0], (designs, *forces.shape[1:2], 6))
    return line, pull(line, forces, [seat.weld], context.load_names)


def _directional(context: Context, effect: WeldEffect, line: WeldLine, through: Pull) -> Verdict:
    """|t| against 0.60 (1 + 0.5 sin^1.5) x the filler's strength at the worst place."""
    weld, found = effect.weld, directional_peak(line, through)
    filler = context.case.fillers[weld.filler]
    throat = effect.seat.leg * THROAT
    demand = found.size / throat[:, None]
    limit = WELD_STRESS[filler.kind] * filler.strength * QUALITY[weld.quality] * found.gain
    limit = limit / context.factors.on_ultimate()
    parts = found.parts[0] / throat[0]
    notes = tuple(
        "; ".join(
            text
            for text in (
                f"{gain:.3f} x for the angle to the weld",
                f"over the throat, MPa: {x:.4g} along {weld.member}, {s:.4g} along the weld, {n:.4g} across",
                amplified_note(context, load),
            )
            if text
        )
        for load, (gain, (x, s, n)) in enumerate(zip(found.gain[0], parts, strict=True))
    )
    return Verdict(
        part=weld.name,
        kind=KIND,
        unit="MPa",
        fails="parts",
        source=DIRECTIONAL,
        demand=demand,
        limit=limit,
        utilisation=demand / limit * effect.path_factor,
        places=sides(effect.seat.axes),
        where=sector(found.place, line.centroid[:, None]),
        in_range=spread(effect.square[:, None], demand.shape),
        notes=notes,
    )


def _ultimate(context: Context, effect: WeldEffect, line: WeldLine, through: Pull) -> Verdict:
    """Force over the nominal force of the group; the line method, out of range, where it does not apply."""
    weld = effect.weld
    filler = context.case.fillers[weld.filler]
    found = in_plane(line, through, effect.seat.leg, filler.strength)
    safe = effect.verdict(context, KIND, effect.throat, QUALITY[weld.quality], effect.square, "")
    divisor = context.factors.on_ultimate() / QUALITY[weld.quality]
    use = np.where(found.covered, found.use * divisor, safe.demand / safe.limit)
    notes = []
    for load, (covered, force, arm) in enumerate(
        zip(found.covered[0], found.force[0], found.arm[0], strict=True)
    ):
        if covered:
            what = "a moment alone" if arm == np.inf else f"{force:.4g} N, {arm:.4g} mm from its centroid"
            told = f"{what}, against what parts the whole group in its plane"
        else:
            told = (
                "the force is not in the weld's plane, or no centre was found: the line method stands here; "
                "leave `method` out"
            )
        notes.append("; ".join(text for text in (told, amplified_note(context, load)) if text))
    return Verdict(
        part=weld.name,
        kind=KIND,
        unit="1",
        fails="parts",
        source=ULTIMATE,
        demand=use,
        limit=np.ones_like(use),
        utilisation=use * effect.path_factor,
        places=safe.places,
        where=safe.where,
        in_range=found.covered & effect.square[:, None],
        notes=tuple(notes),
    )
