"""What both fillet weld checks look at: every rule of every weld at its worst place."""

import math
from functools import cached_property, partial
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.model import Weld
from strength.case.shape import Flat
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.notes import amplified_note
from strength.checks.verdict import Verdict
from strength.frame.response import at_places
from strength.joints.contest import ALONE
from strength.joints.draw import THROAT, Group, Lines, Number, Span, drawn
from strength.joints.fillet import Rule, throat_rules, toe_rules
from strength.joints.forms import Forms
from strength.joints.parents import parents
from strength.joints.peak import Peak, peaks
from strength.joints.pieces import Pieces
from strength.joints.seat import Seat
from strength.joints.traction import pull
from strength.joints.weld_line import WeldLine, measured, worst_face_angle
from strength.joints.words import sector, sides
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

COS_60 = 0.5  # fusion faces at 60 to 120 degrees: EN 1993-1-8 4.3.2.1
SQUARE_ENOUGH = 1e-9


@frozen(kw_only=True, eq=False)
class Worst:
    """The worst of some rules, characteristic, at its worst place; (designs, loads).

    stress [MPa], without the load factor. rule: its number. parts: (..., 3) q_x, q_s, q_n there
    [N/mm]. place: number of a side (`words.sides`).
    """

    rules: tuple[Rule, ...]
    stress: Array
    rule: Index
    parts: Array
    place: Index


@frozen(kw_only=True, eq=False)
class WeldEffect:
    """One weld and the worst of its rules at the throat and at the toe.

    square: (designs,) the faces meet at 60 to 120 degrees. known: the filler's table has the
    parents. low, high: (designs,) where the weld begins and ends along its host [mm from the
    host's `from`].
    """

    seat: Seat
    throat: Worst
    toe: Worst
    known: bool
    heat_known: NDArray[np.bool_]
    square: NDArray[np.bool_]
    path_factor: float
    low: Array
    high: Array

    @property
    def weld(self) -> Weld:
        """The weld as the case has it."""
        return self.seat.weld

    @cached_property
    def sides(self) -> tuple[str, ...]:
        """Names of the sides of the member at this weld."""
        return sides(self.seat.axes)

    def verdict(
        self, context: Context, kind: str, worst: Worst, quality: float, in_range: NDArray[np.bool_], why: str
    ) -> Verdict:
        """Demand and limit are those of the rule with the greatest utilisation."""
        factor = context.factors.load()
        demand = worst.stress * factor
        rules = worst.rules
        limits = np.stack([spread(rule.limit, demand.shape[:1]) for rule in rules], axis=-1)
        limit = limits[np.arange(demand.shape[0])[:, None], worst.rule]
        limit = limit * quality / context.factors.on_ultimate()
        use = demand / limit
        leg = float(self.seat.leg[0])
        name, over = ("throat", leg * THROAT) if kind == "weld-throat" else ("leg", leg)
        parts = worst.parts[0] * factor[:, None] / over
        parts = np.where(np.abs(parts) > 1e-6 * np.abs(parts).max(axis=-1, keepdims=True), parts, 0.0)
        notes = []
        for load, (rule, (x, s, n)) in enumerate(zip(worst.rule[0], parts.tolist(), strict=True)):
            text = (
                f"{rules[int(rule)].what}; over the {name}, MPa: {x:.4g} along {self.weld.member}, "
                f"{s:.4g} along the weld, {n:.4g} across"
            )
            if name == "throat":
                text += f" ({normal_and_transverse(x, n)})"
            every = (text, "" if in_range[0] else why, amplified_note(context, load))
            notes.append("; ".join(part for part in every if part))
        return Verdict(
            part=self.weld.name,
            kind=kind,
            unit="MPa",
            fails="parts",
            source=rules[int(worst.rule[0, np.argmax(use[0])])].source,
            demand=demand,
            limit=limit,
            utilisation=use * self.path_factor,
            places=self.sides,
            where=worst.place,
            in_range=spread(in_range[:, None], demand.shape),
            notes=tuple(notes),
        )


def normal_and_transverse(x: float, n: float) -> str:
    """The worse of both 45 degree throats in words, from the stress along the member and across.

    >>> normal_and_transverse(30.0, -10.0)
    'at 45 degrees 28.28 normal to the throat, 14.14 transverse in it'
    """
    normal = math.copysign((abs(x) + abs(n)) * THROAT, x if abs(x) >= abs(n) else n)
    transverse = abs(abs(x) - abs(n)) * THROAT
    return f"at 45 degrees {normal:.4g} normal to the throat, {transverse:.4g} transverse in it"


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
        np.stack(np.broadcast_arrays(*(seat.plane for seat in seats_)), axis=-1),
        np.array([seat.later for seat in seats_], dtype=np.intp),
    )


def _found(context: Context) -> tuple[WeldEffect, ...]:
    every = context.seats
    if not every:
        return ()
    forces = forces_through(context, every)
    designs = max(forces.shape[0], context.bars.wall.shape[0])
    forces = spread(forces, (designs, *forces.shape[1:]))
    cut = context.factors.method == "limit-state"
    found: dict[int, WeldEffect] = {}
    lines = context.lines
    if cut or lines is None:
        lines = Lines(seats=every, groups=drawn(every, context.bars, cut=cut, designs=designs))
    for group, span in zip(lines.groups, lines.spans, strict=True):
        found.update(zip(group.welds, _group(context, group, span, every, forces), strict=True))
    return tuple(found[n] for n in range(len(every)))


def _group(
    context: Context, group: Group, span: Span, every: tuple[Seat, ...], forces: Array
) -> tuple[WeldEffect, ...]:
    own = tuple(every[n] for n in group.welds)
    line = measured(group.pieces, group.cylinder)
    ruled = [_rules(context, seat, _of(line.pieces, group, k)) for k, seat in enumerate(own)]
    through = pull(line, _through(group, forces), [s.weld for s in own], context.load_names)
    make = partial(_forms_alike, loads=forces.shape[1]) if group.alike else _forms
    both = [make(group, [one[0] for one in ruled]), make(group, [one[1] for one in ruled])]
    throats, toes = peaks(line, through, both, _weight(context, own))
    faces = [np.zeros(3) if s.host is None or s.host.face is None else s.host.face for s in own]
    cosine = worst_face_angle(line, np.repeat(np.array(faces), group.each, axis=0))
    return tuple(
        WeldEffect(
            seat=seat,
            throat=_worst(group, line, k, throat_rules_, throats),
            toe=_worst(group, line, k, toe_rules_, toes),
            known=known,
            heat_known=spread(heat_known, (group.designs,)),
            square=group.own(k, cosine) <= COS_60 + SQUARE_ENOUGH,
            path_factor=path_factor(context, seat.weld),
            low=group.own(k, span.host_low),
            high=group.own(k, span.host_high),
        )
        for k, (seat, (throat_rules_, toe_rules_, known, heat_known)) in enumerate(
            zip(own, ruled, strict=True)
        )
    )


def _weight(context: Context, seats: tuple[Seat, ...]) -> Array:
    """By what each load's stress counts in the contest of the loads, where only the worst is asked for.

    Welds that other rules judge beside these need them at every load.
    """
    if not context.brief or any(seat.weld.directional or seat.weld.method != "line" for seat in seats):
        return ALONE
    return context.factors.load() * context.factors.on_ultimate()


def _through(group: Group, forces: Array) -> Array:
    """Forces (designs, loads, welds, 6) of all welds as rows of a group."""
    if not group.alike:
        return group.rows(tuple(np.moveaxis(forces, 2, 0)))
    own = np.moveaxis(forces[:, :, list(group.welds)], 2, 0)
    return own.reshape(own.shape[0], -1, 6)


def _forms_alike(group: Group, ruled: list[tuple[Rule, ...]], loads: int) -> Forms:
    """The same for lines alike in all designs: a form's size, and its limit, go with the load."""
    most = max(map(len, ruled))
    forms = np.zeros((len(ruled), most, group.pieces.span.size, 4))
    scales = np.zeros((len(ruled), group.designs, most))
    sizes = np.zeros_like(scales)
    for k, rules in enumerate(ruled):
        for c, rule in enumerate(rules):
            size = np.abs(rule.form).max(axis=(1, 2))
            forms[k, c] = rule.form[0] / size[0]
            sizes[k, :, c] = size
            scales[k, :, c] = size * rule.limit**-2.0
    return Forms(forms=forms, scales=np.repeat(scales, loads, axis=1), sizes=np.repeat(sizes, loads, axis=1))


def _forms(group: Group, ruled: list[tuple[Rule, ...]]) -> Forms:
    """Forms and scales of all rows of a group; welds with fewer rules are filled up with nothing."""
    most, designs = max(map(len, ruled)), group.designs
    forms = np.zeros((len(ruled) * designs, most, group.pieces.span.size, 4))
    scales = np.zeros(forms.shape[:2])
    for k, rules in enumerate(ruled):
        rows = slice(k * designs, (k + 1) * designs)
        for c, rule in enumerate(rules):
            forms[rows, c] = rule.form
            scales[rows, c] = rule.limit**-2.0
    return Forms(forms=forms, scales=scales)


def _worst(group: Group, line: WeldLine, k: int, rules: tuple[Rule, ...], peak: Peak) -> Worst:
    def own(values: NDArray[Number]) -> NDArray[Number]:
        """Values of the weld (designs, loads, ...)."""
        found = group.own(k, values)
        return found.reshape(group.designs, -1, *found.shape[2:])

    return Worst(
        rules=rules,
        stress=own(peak.value),
        rule=np.minimum(own(peak.form), len(rules) - 1),
        parts=own(peak.parts),
        place=sector(own(peak.place), group.own(k, line.centroid)[:, None]),
    )


def _rules(
    context: Context, seat: Seat, pieces: Pieces
) -> tuple[tuple[Rule, ...], tuple[Rule, ...], bool, NDArray[np.bool_]]:
    """Rules at the throat and at the toe, and whether the filler's table and a rule of heat cover them."""
    weld = seat.weld
    filler = context.case.fillers[weld.filler]
    own, onto = parents(context.case, seat, context.bars)
    throat, known = throat_rules(
        seat.leg * THROAT,
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
    toe = toe_rules(seat.leg, own=own, onto=onto, wall=wall, host_wall=None if onto is None else onto.wall)
    heat_known = own.in_range if onto is None else own.in_range & onto.in_range
    return throat, toe, known, heat_known


def _along_width(pieces: Pieces) -> NDArray[np.bool_]:
    """(designs, pieces) True for lines along a flat's width, which lies along z_m."""
    return np.asarray(np.abs(pieces.delta[..., 0]) <= 1e-6 * np.abs(pieces.delta[..., 1]))


def _of(pieces: Pieces, group: Group, k: int) -> Pieces:
    """The pieces of the group's weld k."""
    rows = slice(k * group.each, (k + 1) * group.each)
    return evolve(
        pieces,
        base=pieces.base[rows],
        delta=pieces.delta[rows],
        radius=pieces.radius[rows],
        first=pieces.first[rows],
    )
