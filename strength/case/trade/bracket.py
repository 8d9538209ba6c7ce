"""A bracket: a flat on another part, welded or bolted, with an eye or a ball at its tip."""

from collections.abc import Callable

from strength.case.model import Vector
from strength.case.shape import Bar, Rigid, Tube
from strength.case.trade.axes import Axes, face_distance, member_axes, nearly_along
from strength.case.trade.bracket_geometry import Seat, bolt_row, lies_flat, seat
from strength.case.trade.making import Making
from strength.case.trade.material_of import MaterialOf
from strength.case.trade.parts import Bracket
from strength.case.trade.placed import Host
from strength.case.trade.vector import distance, minus, plus, unit
from strength.case.trade.wishbone import CLEARANCE, EDGE
from strength.values import frozen

SAME = 0.01  # mm


@frozen(kw_only=True)
class LaidBracket:
    """Where a bracket lies: root on the host's centre line, foot on its own middle plane [mm].

    seat: the face it is bolted to, None where welded. inset: root to the host's face along the
    bracket, 0 where bolted [mm].
    """

    root: Vector
    foot: Vector
    tip: Vector
    axes: Axes
    seat: Seat | None
    inset: float


def lay_bracket(part: Bracket, host: Host, root: Vector, tip: Vector) -> LaidBracket | str:
    """Lay a bracket out between its root on the host and its tip; a text says why it cannot be."""
    standing = host.axes
    if standing is None:
        return f"{host.name} has no length, or its `up` lies along it: nothing can stand on it"
    if distance(root, tip) < SAME:
        return (
            f"its tip lies on the centre line of {host.name}, so it has no length: move `tip`, or change `at`"
        )
    fault = _wide_fault(part, unit(minus(tip, root)))
    if fault:
        return fault
    axes = member_axes(root, tip, part.wide)
    if axes is None:
        return "`wide` has no length"
    if part.bolts is None:
        return _lay_welded(host, standing, root, tip, axes)
    return _lay_bolted(part, host, standing, root, tip, axes)


def _wide_fault(part: Bracket, x: Vector) -> str | None:
    if not nearly_along(part.wide, x):
        return None
    return (
        "`wide` points along the bracket, from its root to its tip: it says which way the "
        f"{part.plate.width:g} mm of the plate points, across that line"
    )


def _lay_welded(host: Host, standing: Axes, root: Vector, tip: Vector, axes: Axes) -> LaidBracket | str:
    inset = face_distance(host.shape, standing, axes.x)
    if inset is None:
        return f"{host.name} has no face to weld onto in that direction: move `tip`, or change `at`"
    if distance(root, tip) <= inset:
        return (
            f"it is {distance(root, tip):.4g} mm long, shorter than its weld's inset: along it the face of "
            f"{host.name} is {inset:.4g} mm from that part's centre line; move `tip`, or change `at`"
        )
    return LaidBracket(root=root, foot=root, tip=tip, axes=axes, seat=None, inset=inset)


def _lay_bolted(
    part: Bracket, host: Host, standing: Axes, root: Vector, tip: Vector, axes: Axes
) -> LaidBracket | str:
    if isinstance(host.shape, Tube | Bar):
        return f"{host.name} is round: a plate cannot be bolted flat onto it; leave `bolts` out to weld it"
    face = seat(host.shape, standing, root, tip, axes.y)
    if face is None:
        return (
            f"{host.name} has no plate or wall of known thickness to bolt to: weld it, or write the bolts out"
        )
    foot = plus(root, face.normal, face.half + part.plate.thickness / 2)
    if distance(foot, tip) < SAME:
        return f"its tip lies at its foot on {host.name}, so it has no length: move `tip`, or change `at`"
    fault = _wide_fault(part, unit(minus(tip, foot)))
    if fault:
        return fault
    lying = member_axes(foot, tip, part.wide)
    if lying is None or not lies_flat(lying.y, face.normal):
        return f"does not lie flat on {host.name}: change `wide`, or weld it"
    return LaidBracket(root=root, foot=foot, tip=tip, axes=lying, seat=face, inset=0.0)


def make_bracket(part: Bracket, host: Host, laid: LaidBracket, settle: Callable[[str], str]) -> Making:
    """The plain entries of a bracket that is free of faults."""
    making = Making(part, f"bracket {part.name}", settle)
    start = making.point("-root")
    if laid.seat is not None:
        foot = making.point("-foot")
        making.add("member", "-step", {"from": start, "to": foot, "section": Rigid()})
        start = foot
    tip = making.point("")
    making.add(
        "member",
        "",
        {"from": start, "to": tip, "section": part.plate, "up": part.wide, **part.work.member},
    )
    if laid.seat is None:
        pattern = "sides"
        if isinstance(host.shape, Tube | Bar):  # two straight lines do not lie on a round part
            pattern = "around"
            making.assume("weld, pattern", f"all round, since {host.name} is round")
        making.add(
            "weld",
            "-weld",
            {
                "member": part.name,
                "end": "from",
                "inset": laid.inset,
                "pattern": pattern,
                "onto": host.name,
                **part.work.weld,
            },
        )
    else:
        _bolts(making, part, host, laid, laid.seat)
    _tip(making, part, laid)
    return making


def _bolts(making: Making, part: Bracket, host: Host, laid: LaidBracket, face: Seat) -> None:
    """The row of bolts that holds the plate to its host."""
    row = part.bolts
    if row is None:
        return
    hole = row.size.diameter + CLEARANCE
    making.assume("bolts, hole", f"{hole:g} mm in both plates, edge {row.edge:g} mm in both")
    making.add(
        "bolt",
        "-fix",
        {
            "member": part.name,
            "end": "from",
            "axis": face.normal,
            "size": row.size,
            "shear_planes": 1,
            "group": bolt_row(row.count, row.apart, laid.axes.z) if row.count > 1 else None,
            "plates": (
                {
                    "thickness": part.plate.thickness,
                    "material": MaterialOf(part.name),
                    "edge": row.edge,
                    "hole": hole,
                },
                {
                    "thickness": face.thickness,
                    "material": MaterialOf(host.name),
                    "edge": row.edge,
                    "hole": hole,
                },
            ),
            **part.work.bolt,
        },
    )


def _tip(making: Making, part: Bracket, laid: LaidBracket) -> None:
    """The eye's bolt or the ball's stud."""
    if part.eye is not None:
        d = part.eye.diameter
        making.assume("eye, plate", f"edge {EDGE * d:g} mm, hole {d + CLEARANCE:g} mm, 2 shear planes")
        plate = {
            "thickness": part.plate.thickness,
            "material": MaterialOf(part.name),
            "edge": EDGE * d,
            "hole": d + CLEARANCE,
        }
        making.add(
            "bolt",
            "-eye",
            {
                "member": part.name,
                "end": "to",
                "axis": laid.axes.y,
                "size": part.eye,
                "shear_planes": 2,
                "plates": (plate,),
                **part.work.bolt,
            },
        )
    if part.ball is not None:
        d = part.ball.diameter
        making.add(
            "stud",
            "-ball",
            {
                "member": part.name,
                "end": "to",
                "axis": laid.axes.y,
                "size": part.ball,
                "reach": making.length("ball_reach", part.ball_reach, 2 * d),
                "engaged": making.length("ball_engaged", part.ball_engaged, 1.5 * d),
                **part.work.bolt,
            },
        )
