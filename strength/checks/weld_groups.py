"""Fillet welds of one make-up worked out together: rules, forces and the worst place of every weld."""

from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Flat
from strength.checks.context import Context
from strength.checks.weld_kinds import Part, of_designs, of_kinds, parts_of
from strength.frame.response import at_places
from strength.joints.contest import ALONE, Contest
from strength.joints.draw import THROAT, Group, Lines, Span, drawn
from strength.joints.fillet import Rule, throat_rules, toe_rules
from strength.joints.forms import Forms
from strength.joints.parents import Parent, parents
from strength.joints.peak import Peak, peaks
from strength.joints.pieces import Pieces
from strength.joints.seat import Seat
from strength.joints.traction import pull
from strength.joints.weld_line import WeldLine, measured, worst_face_angle
from strength.values import frozen

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

COS_60 = 0.5  # fusion faces at 60 to 120 degrees: EN 1993-1-8 4.3.2.1
SQUARE_ENOUGH = 1e-9


@frozen(kw_only=True, eq=False)
class Ruled:
    """What a weld is judged by at the throat and at the toe.

    own, onto: the parts it joins. known: the filler's table has them. heat_known: (designs or 1,) a rule of
    heat covers them.
    """

    throat: tuple[Rule, ...]
    toe: tuple[Rule, ...]
    own: Parent
    onto: Parent | None
    known: bool
    heat_known: Flags


@frozen(kw_only=True, eq=False)
class Judged:
    """Welds of a group with the worst of their rules; rows as in the group.

    square: (rows,) the faces meet at 60 to 120 degrees.
    """

    group: Group
    span: Span
    line: WeldLine
    seats: tuple[Seat, ...]
    ruled: tuple[Ruled, ...]
    throats: Peak
    toes: Peak
    square: Flags


def judged_groups(context: Context) -> tuple[Judged, ...]:
    """All welds of a case.

    Raises CaseError for a line that cannot be drawn or cannot carry its moment.
    """
    every = context.seats
    if not every:
        return ()
    forces = forces_through(context, every)
    designs = max(forces.shape[0], context.bars.wall.shape[0])
    forces = spread(forces, (designs, *forces.shape[1:]))
    cut = context.factors.method == "limit-state"
    lines = context.lines
    if cut or lines is None:
        lines = Lines(seats=every, groups=drawn(every, context.bars, cut=cut, designs=designs))
    return tuple(_judged(context, part, every, forces) for part in parts_of(context, lines))


def forces_through(context: Context, seats: tuple[Seat, ...]) -> Array:
    """N Vy Vz T My Mz through each weld's plane: (designs, loads, welds, 6)."""
    return at_places(
        context.layout,
        context.response,
        np.array([seat.bar for seat in seats], dtype=np.intp),
        np.stack(np.broadcast_arrays(*(seat.plane for seat in seats)), axis=-1),
        np.array([seat.later for seat in seats], dtype=np.intp),
    )


def _judged(context: Context, part: Part, every: tuple[Seat, ...], forces: Array) -> Judged:
    group = part.group
    seats = tuple(every[n] for n in group.welds)
    line = measured(group.pieces, group.cylinder, group.reach)
    ruled = tuple(_rules(context, seat, line.pieces.some(group.rows_of(k))) for k, seat in enumerate(seats))
    make = partial(_forms_alike, loads=forces.shape[1]) if group.alike else _forms
    both = [make(group, [one.throat for one in ruled]), make(group, [one.toe for one in ruled])]
    throats, toes = _peaks(context, part, line, both, seats, forces)
    faces = [np.zeros(3) if s.host is None or s.host.face is None else s.host.face for s in seats]
    cosine = worst_face_angle(line, np.repeat(np.array(faces), group.each, axis=0))
    return Judged(
        group=group,
        span=part.span,
        line=line,
        seats=seats,
        ruled=ruled,
        throats=throats,
        toes=toes,
        square=cosine <= COS_60 + SQUARE_ENOUGH,
    )


def _peaks(
    context: Context, part: Part, line: WeldLine, both: list[Forms], seats: tuple[Seat, ...], forces: Array
) -> list[Peak]:
    """Worst places at throats and toes; of welds that stand still looked for once a kind of designs."""
    group, welds, contest = part.group, [seat.weld for seat in seats], _contest(context, seats)
    alike = context.response.alike
    if not part.still or alike is None:
        return peaks(line, pull(line, _through(group, forces), welds, context.load_names), both, contest)
    through = pull(line, _through(group, forces[alike.first]), welds, context.load_names)
    few = [of_kinds(forms, alike) for forms in both]
    found = peaks(line, through, few, contest)
    return [of_designs(peak, forms, alike) for peak, forms in zip(found, both, strict=True)]


def _contest(context: Context, seats: tuple[Seat, ...]) -> Contest:
    """The loads' contest by utilisation, where only the worst is asked for.

    Welds that other rules judge beside these need them at every load.
    """
    if not context.brief or any(seat.weld.directional or seat.weld.method != "line" for seat in seats):
        return ALONE
    factor = (context.factors.load() * context.factors.on_ultimate()) ** 2
    return Contest(rivals=factor.size, factor=factor[None])


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
    return Forms(forms=forms, scales=scales, sizes=sizes, each=loads)


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


def _rules(context: Context, seat: Seat, pieces: Pieces) -> Ruled:
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
    return Ruled(
        throat=throat,
        toe=toe_rules(seat.leg, own=own, onto=onto, wall=wall, host_wall=None if onto is None else onto.wall),
        own=own,
        onto=onto,
        known=known,
        heat_known=own.in_range if onto is None else own.in_range & onto.in_range,
    )


def _along_width(pieces: Pieces) -> Flags:
    """(designs, pieces) True for lines along a flat's width, which lies along z_m."""
    return np.asarray(np.abs(pieces.delta[..., 0]) <= 1e-6 * np.abs(pieces.delta[..., 1]))
