"""What both fillet weld checks look at: every rule of every weld at its worst place."""

from weakref import WeakKeyDictionary

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.case.model import Weld
from strength.case.shape import Flat
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.verdict import Verdict
from strength.frame.response import at_places
from strength.joints.draw import THROAT, Group, drawn
from strength.joints.fillet import Rule, throat_rules, toe_rules
from strength.joints.heat import footprints
from strength.joints.parents import parents
from strength.joints.peak import peaks
from strength.joints.pieces import Pieces
from strength.joints.seat import Seat, seats
from strength.joints.traction import pull
from strength.joints.weld_line import worst_face_angle
from strength.joints.words import sector, sides

Array = NDArray[np.float64]
Index = NDArray[np.intp]

COS_60 = 0.5  # fusion faces at 60 to 120 degrees: EN 1993-1-8 4.3.2.1
SQUARE_ENOUGH = 1e-9


@attrs.frozen(kw_only=True, eq=False)
class WeldEffect:
    """One weld: all its rules, characteristic, each at its worst place.

    stress, parts, place: (designs, loads, rules[, 3]) [MPa, N/mm, number of a side]; without the load
    factor. square: (designs,) the faces meet at 60 to 120 degrees. known: the filler's table has
    the parents. low, high: (designs,) where the weld begins and ends along its host [mm from the
    host's `from`]. throats: how many of the rules, which come first, are `weld-throat`'s.
    """

    seat: Seat
    rules: tuple[Rule, ...]
    throats: int
    known: bool
    heat_known: NDArray[np.bool_]
    stress: Array
    parts: Array
    place: Index
    square: NDArray[np.bool_]
    path_factor: float
    low: Array
    high: Array

    @property
    def weld(self) -> Weld:
        """The weld as the case has it."""
        return self.seat.weld

    def verdict(
        self, context: Context, kind: str, own: slice, quality: float, in_range: NDArray[np.bool_], why: str
    ) -> Verdict:
        """Worst of some rules: demand and limit are those of the rule with the greatest utilisation."""
        factor = context.factors.load()[:, None]
        demand = self.stress[:, :, own] * factor
        rules = self.rules[own]
        limits = np.stack([np.broadcast_to(rule.limit, demand.shape[:1]) for rule in rules], axis=-1)
        limit = limits[:, None] * quality / context.factors.on_ultimate()[:, None]
        use = demand / limit
        worst = np.argmax(use, axis=-1)[..., None]
        demand, limit, use = (
            np.take_along_axis(values, worst, axis=-1)[..., 0] for values in (demand, limit, use)
        )
        parts = np.take_along_axis(self.parts[:, :, own], worst[..., None], axis=2)[0, :, 0]
        parts = parts * factor
        over = self.weld.leg * THROAT if kind == "weld-throat" else self.weld.leg
        name = "throat" if kind == "weld-throat" else "leg"
        notes = [
            f"{rules[int(rule)].what}; over the {name}, MPa: {x / over:.4g} along {self.weld.member}, "
            f"{s / over:.4g} along the weld, {n / over:.4g} across" + ("" if in_range[0] else f"; {why}")
            for rule, (x, s, n) in zip(worst[0, :, 0], parts, strict=True)
        ]
        return Verdict(
            part=self.weld.name,
            kind=kind,
            unit="MPa",
            fails="parts",
            source=rules[int(worst[0, np.argmax(use[0]), 0])].source,
            demand=demand,
            limit=limit,
            utilisation=use * self.path_factor,
            places=sides(self.seat.axes),
            where=np.take_along_axis(self.place[:, :, own], worst, axis=-1)[..., 0],
            in_range=np.broadcast_to(in_range[:, None], demand.shape),
            notes=tuple(notes),
        )


_known: "WeakKeyDictionary[Context, tuple[WeldEffect, ...]]" = WeakKeyDictionary()


def weld_effects(context: Context) -> tuple[WeldEffect, ...]:
    """Every weld of the case, worked out once for both checks.

    Raises CaseError for a line that cannot be drawn or cannot carry its moment.
    """
    if context not in _known:
        _known[context] = _found(context)
    return _known[context]


def path_factor(context: Context, weld: Weld) -> float:
    """1.25 where the weld, or with no word of its own its member, is the only path; else 1."""
    only = weld.only_path
    if only is None:
        only = any(member.only_path for member in context.case.members if member.name == weld.member)
    return ONLY_PATH if only else 1.0


def forces_through(context: Context, seats_: tuple[Seat, ...]) -> Array:
    """N Vy Vz T My Mz through each weld's plane: (designs, loads, welds, 6)."""
    return at_places(
        context.layout,
        context.response,
        np.array([seat.bar for seat in seats_], dtype=np.intp),
        np.array([[seat.plane for seat in seats_]]).reshape(1, -1),
        np.array([seat.later for seat in seats_], dtype=np.intp),
    )


def _found(context: Context) -> tuple[WeldEffect, ...]:
    every = seats(context.case, context.layout, context.bars)
    if not every:
        return ()
    forces = forces_through(context, every)
    designs = max(forces.shape[0], context.bars.wall.shape[0])
    forces = np.broadcast_to(forces, (designs, *forces.shape[1:]))
    cut = context.factors.method == "limit-state"
    found: dict[int, WeldEffect] = {}
    for group in drawn(every, context.bars, cut=cut, designs=designs):
        found.update(zip(group.welds, _group(context, group, every, forces), strict=True))
    return tuple(found[n] for n in range(len(every)))


def _group(context: Context, group: Group, every: tuple[Seat, ...], forces: Array) -> tuple[WeldEffect, ...]:
    own = tuple(every[n] for n in group.welds)
    line, designs = group.line, group.designs
    ruled = [_rules(context, seat, _of(line.pieces, group, k)) for k, seat in enumerate(own)]
    most = max(len(rules) for rules, _, _, _ in ruled)
    forms = np.zeros((line.length.size, most, line.pieces.span.size, 4))
    for k, (rules, _, _, _) in enumerate(ruled):
        for c, rule in enumerate(rules):
            forms[k * designs : (k + 1) * designs, c] = rule.form
    through = pull(
        line, group.rows(tuple(np.moveaxis(forces, 2, 0))), [s.weld for s in own], context.load_names
    )
    peak = peaks(line, through, forms)
    faces = [np.zeros(3) if s.host is None or s.host.face is None else s.host.face for s in own]
    low, high = footprints(group, every)
    cosine = worst_face_angle(line, np.repeat(np.array(faces), designs, axis=0))
    found = []
    for k, (seat, (rules, throats, known, heat_known)) in enumerate(zip(own, ruled, strict=True)):
        centre = group.own(k, line.centroid)[:, None, None]
        count = len(rules)
        found.append(
            WeldEffect(
                seat=seat,
                rules=rules,
                throats=throats,
                known=known,
                heat_known=np.broadcast_to(heat_known, (designs,)),
                stress=group.own(k, peak.value)[:, :, :count],
                parts=group.own(k, peak.parts)[:, :, :count],
                place=sector(group.own(k, peak.place)[:, :, :count], centre),
                square=group.own(k, cosine) <= COS_60 + SQUARE_ENOUGH,
                path_factor=path_factor(context, seat.weld),
                low=group.own(k, low),
                high=group.own(k, high),
            )
        )
    return tuple(found)


def _rules(
    context: Context, seat: Seat, pieces: Pieces
) -> tuple[tuple[Rule, ...], int, bool, NDArray[np.bool_]]:
    """Rules of both checks, how many are the throat's, and whether filler and heat are covered."""
    weld = seat.weld
    filler = context.case.fillers[weld.filler]
    own, onto = parents(context.case, seat, context.bars)
    throat, known = throat_rules(
        weld.leg * THROAT,
        context.factors.method,
        filler=filler,
        brazed=weld.process == "braze" or filler.kind == "bronze",
        hollow=seat.host is not None and seat.host.hollow,
        own=own,
        onto=onto,
    )
    wall = own.wall[:, None]
    if isinstance(seat.shape, Flat):
        wall = np.where(_along_width(pieces), wall / 2.0, wall)
    toe = toe_rules(weld.leg, own=own, onto=onto, wall=wall, host_wall=None if onto is None else onto.wall)
    heat_known = own.in_range if onto is None else own.in_range & onto.in_range
    return (*throat, *toe), len(throat), known, heat_known


def _along_width(pieces: Pieces) -> NDArray[np.bool_]:
    """(designs, pieces) True for lines along a flat's width, which lies along z_m."""
    return np.asarray(np.abs(pieces.delta[..., 0]) <= 1e-6 * np.abs(pieces.delta[..., 1]))


def _of(pieces: Pieces, group: Group, k: int) -> Pieces:
    """The pieces of the group's weld k."""
    rows = slice(k * group.designs, (k + 1) * group.designs)
    return attrs.evolve(
        pieces,
        base=pieces.base[rows],
        delta=pieces.delta[rows],
        radius=pieces.radius[rows],
        first=pieces.first[rows],
    )
