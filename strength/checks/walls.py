"""What the checks of a host's wall look at: forces of the welded member, stress and strength of the host."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar, Bare, Outline, Rigid, Tube
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.verdict import Verdict
from strength.checks.weld_groups import forces_through
from strength.checks.welds import WeldEffect, weld_effects
from strength.frame.response import at_places
from strength.joints.meeting import Meeting, Neighbour, meeting, neighbours
from strength.joints.parents import Parent, parents
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]

NEAR = 1.0  # mm: the weld's place along the host is the host's point this near (own choice)
HIGH = 355.0  # MPa: above, joint strengths x 0.9, EN 1993-1-8 7.1.1(4), from memory
HIGH_FACTOR = 0.9
HIGHEST = 460.0


@frozen(kw_only=True, eq=False)
class WallJoint:
    """A member welded onto a member. Forces characteristic times load factor and divisor, (designs, loads).

    axial: N, tension positive [N]; in_plane, out_of_plane: moments, magnitudes [N*mm]. compression:
    the host's greatest compressive stress on either side over its yield. fy: (designs, 1) of the
    host's wall, reduced above 355 MPa. outside: what of the source's range is left: a mask
    (designs, loads) and the reason.
    """

    effect: WeldEffect
    meeting: Meeting
    near: tuple[Neighbour, ...]
    own: Parent
    wall: Parent
    axial: Array
    in_plane: Array
    out_of_plane: Array
    compression: Array
    fy: Array
    outside: tuple[tuple[Bool, str], ...]

    def verdict(
        self,
        context: Context,
        kind: str,
        use: Array,
        source: str,
        what: tuple[str, ...],
        outside: tuple[tuple[Bool, str], ...],
    ) -> Verdict:
        """An interaction that already holds load factor and divisor, against 1; what: in words, per load."""
        inside = np.zeros(use.shape, dtype=bool)
        every = [(inside | mask, why) for mask, why in (*self.outside, *outside)]
        in_range = ~np.any([mask for mask, _ in every], axis=0) if every else ~inside
        notes = []
        told = [(mask[0].tolist(), why) for mask, why in every if mask[0].any()]
        for n, text in enumerate(what):
            parts = [text, *(why for mask, why in told if mask[n]), amplified_note(context, n)]
            notes.append("; ".join(part for part in parts if part))
        host = self.effect.weld.onto
        return Verdict(
            part=self.effect.weld.name,
            kind=kind,
            unit="1",
            fails="bends" if kind != "chord-punching" else "parts",
            source=source,
            demand=use,
            limit=np.ones(use.shape),
            utilisation=use * self.effect.path_factor,
            places=(f"wall of {host}, {self.meeting.host.at[0]:.0f} mm along it",),
            in_range=in_range,
            notes=tuple(notes),
        )


_known: "WeakKeyDictionary[Context, tuple[WallJoint, ...]]" = WeakKeyDictionary()


def wall_joints(context: Context) -> tuple[WallJoint, ...]:
    """All members welded onto members that have a section, in the order of the welds."""
    if context not in _known:
        _known[context] = _found(context)
    return _known[context]


def divisor(context: Context, parent: Parent) -> Array:
    """(loads,) yield factor or gamma_M5."""
    return context.factors.on_yield(parent.metal.kind, brittle=parent.brittle, gamma="gamma_m5")


def host_forces(context: Context, joint: Meeting) -> Array:
    """Internal forces of the host on either side of the member's end: (designs, loads, 2, 6).

    There, on the host's middle line, its force enters; the weld of a slanting member is elsewhere.
    """
    host, layout, seat = joint.host, context.layout, joint.seat
    # the member's end lies an inset behind the middle of the weld's plane
    enters = -host.origin @ host.axes[0] - seat.into * seat.inset * host.axes[0, 0]
    cuts = layout.along[layout.first[host.bar] : layout.last[host.bar] + 1].ravel()
    place = np.clip(enters, 0.0, host.length)
    nearest = cuts[np.argmin(np.abs(cuts - place[:, None]), axis=1)]
    place = np.where(np.abs(nearest - place) <= NEAR, nearest, place)
    bar = np.full(2, host.bar, dtype=np.intp)
    both = np.stack([place, place], axis=-1)
    return at_places(layout, context.response, bar, both, np.array([0, 1], dtype=np.intp))


def _found(context: Context) -> tuple[WallJoint, ...]:
    effects = weld_effects(context)
    met = [(effect, meeting(effect.seat, effect.low, effect.high)) for effect in effects]
    every = tuple(joint for _, joint in met if joint is not None)
    if not every:
        return ()
    forces = forces_through(context, tuple(effect.seat for effect in effects))
    return tuple(
        _joint(context, effect, joint, every, forces[:, :, n])
        for n, (effect, joint) in enumerate(met)
        if joint is not None and not isinstance(joint.host.shape, Rigid | Bare | Outline)
    )


def _joint(
    context: Context, effect: WeldEffect, joint: Meeting, every: tuple[Meeting, ...], force: Array
) -> WallJoint:
    own, wall = parents(context.case, effect.seat, context.bars)
    if wall is None:
        raise TypeError("a host with a section has a metal")
    by = context.factors.load() * divisor(context, wall)
    moment = force[..., 3:]
    bar = joint.host.bar
    bars = context.bars
    high = (wall.yield_ > HIGH) & (wall.metal.kind != "aluminium")
    beyond = context.factors.load() * (
        divisor(context, wall) if context.factors.method == "allowable" else 1.0
    )
    squeeze = _squeeze(context, joint) * beyond / wall.yield_[:, None]
    size = bars.depth[:, bar]
    return WallJoint(
        effect=effect,
        meeting=joint,
        near=neighbours(joint, every, size),
        own=own,
        wall=wall,
        axial=force[..., 0] * by,
        in_plane=np.abs(moment @ joint.in_plane) * by,
        out_of_plane=np.abs(moment @ joint.out_of_plane) * by,
        compression=squeeze,
        fy=(wall.yield_ * np.where(high, HIGH_FACTOR, 1.0))[:, None],
        outside=_outside(joint, wall, size, squeeze),
    )


def _squeeze(context: Context, joint: Meeting) -> Array:
    """Greatest compressive stress of the host next to the weld (designs, loads) [MPa], not negative."""
    bars, bar = context.bars, joint.host.bar
    inside = host_forces(context, joint)
    area, wy, wz = (v[:, bar, None, None] for v in (bars.area, bars.modulus_y, bars.modulus_z))
    if isinstance(joint.host.shape, Tube | Bar):
        bend = np.hypot(inside[..., 4], inside[..., 5]) / wy
    else:
        bend = np.abs(inside[..., 4]) / wy + np.abs(inside[..., 5]) / wz
    found: Array = np.maximum(np.max(bend - inside[..., 0] / area, axis=-1), 0.0)
    return found


def _outside(joint: Meeting, wall: Parent, size: Array, squeeze: Array) -> tuple[tuple[Bool, str], ...]:
    """Reasons common to all tables that leave their range, as (designs or 1, loads or 1)."""
    column = np.zeros((1, 1), dtype=bool)
    return (
        (
            column | (wall.metal.kind == "aluminium"),
            "EN 1993-1-8 section 7 is for steel: welded yield put in its formulas as a guide",
        ),
        (
            wall.wall[:, None] < 2.5,
            f"{joint.seat.weld.onto}: wall under 2.5 mm, thinner than EN 1993-1-8 section 7 covers",
        ),
        (wall.yield_[:, None] > HIGHEST, "yield over 460 MPa"),
        (column | (joint.angle < np.radians(30.0) - 1e-9), "angle under 30 degrees"),
        (
            (joint.low[:, None] < -1e-6) | (joint.high[:, None] > joint.host.length + 1e-6),
            f"the weld runs past the end of {joint.seat.weld.onto}",
        ),
        (
            joint.aside[:, None] > 0.05 * size[:, None],
            "the middle lines pass each other by over 5 % of the depth",
        ),
        (squeeze > 1.0, f"{joint.seat.weld.onto} itself is over its yield"),
    )
