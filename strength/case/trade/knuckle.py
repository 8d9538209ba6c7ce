"""A knuckle: plate, steps from the balls, studs, bore and stub axle."""

from collections.abc import Callable

from strength.case.model import Vector
from strength.case.shape import Rigid
from strength.case.trade.knuckle_geometry import SAME, KnuckleGeometry, lay_knuckle
from strength.case.trade.making import Making
from strength.case.trade.material_of import MaterialOf
from strength.case.trade.parts import Knuckle
from strength.case.trade.placed import PlacedKnuckle
from strength.case.trade.vector import distance, dot, minus, unit

FORE_AND_AFT: Vector = (1.0, 0.0, 0.0)


def ball_reach(part: Knuckle) -> float:
    """Ball centre to the face the stud screws into [mm]; 2 d where left out."""
    return 2 * part.ball.diameter if part.ball_reach is None else part.ball_reach


def plate_offset(part: Knuckle) -> float:
    """How far the plate stands from the ball-to-ball line, toward the wheel [mm]."""
    if part.offset is not None:
        return part.offset
    return 0.0 if part.ball_axis == "along" else ball_reach(part) + part.plate.thickness / 2


def plate_up(part: Knuckle) -> Vector:
    """Which way the plate's width points."""
    return FORE_AND_AFT if part.up is None else part.up


def lay(part: Knuckle, placed: PlacedKnuckle) -> KnuckleGeometry | str:
    """The knuckle's geometry, or why it cannot be laid out."""
    return lay_knuckle(
        placed.lower,
        placed.upper,
        placed.hub,
        placed.axle,
        plate_up(part),
        plate_offset(part),
    )


def knuckle_faults(part: Knuckle, placed: PlacedKnuckle, laid: KnuckleGeometry) -> list[str]:
    """What is wrong with where the wheel's axle line meets the plate."""
    found = []
    half = part.plate.width / 2
    if part.axle.diameter >= part.plate.width:
        turned = part.plate.thickness > part.plate.width
        found.append(
            f"the axle's bore of {part.axle.diameter:g} mm leaves nothing of a plate {part.plate.width:g} mm "
            "wide: "
            + ("is it the wrong way round? Write 'flat WIDTH x THICKNESS'" if turned else "take a wider one")
        )
        return found
    if laid.miss > half:
        found.append(
            f"the axle line of wheel {part.wheel} passes the plate's centre line by {laid.miss:.4g} mm, "
            f"more than half its width ({half:.4g} mm): move the wheel's centre or a ball, or widen the plate"
        )
    beyond = max(-laid.fraction, laid.fraction - 1.0) * distance(laid.low, laid.high)
    if beyond > SAME:
        ball = "lower" if laid.fraction < 0 else "upper"
        found.append(
            f"the axle line of wheel {part.wheel} passes {beyond:.4g} mm beyond the {ball} ball, off the "
            "plate: move the wheel's centre or that ball"
        )
    if not found and distance(laid.root, placed.hub) < SAME:
        found.append(
            f"the centre of wheel {part.wheel} lies on the plate's centre line, so the stub axle has no "
            "length: check the wheel's `centre` and `set`"
        )
    if part.shoulder is not None and not found and abs(dot(minus(placed.hub, laid.root), laid.normal)) < SAME:
        found.append("the stub axle runs inside the plate, so no face carries its `shoulder`: change `up`")
    return found


def make_knuckle(
    part: Knuckle, placed: PlacedKnuckle, laid: KnuckleGeometry, hub: str, settle: Callable[[str], str]
) -> Making:
    """The plain entries of a knuckle that is free of faults; `hub` names the wheel's centre."""
    making = Making(part, f"knuckle {part.name}", settle)
    _assume(making, part)
    low, high, root = (making.point(suffix) for suffix in ("-low", "-high", "-root"))
    thickness = part.plate.thickness
    ball_ends = {} if laid.stepped else {"from_end": "ball", "to_end": "ball"}
    making.add(
        "member",
        "",
        {
            "from": low,
            "to": high,
            "via": None if root in (low, high) else (root,),
            "section": part.plate,
            "up": plate_up(part),
            **ball_ends,
            **part.work.member,
        },
    )
    if laid.stepped:
        for side, ball, point in (("low", "-lower", low), ("high", "-upper", high)):
            making.add(
                "member",
                f"-{side}-step",
                {"from": making.point(ball), "to": point, "section": Rigid(), "from_end": "ball"},
            )
    making.add(
        "member",
        "-axle",
        {"from": root, "to": hub, "section": part.axle, "material": part.axle_material},
    )
    _studs(making, part, laid)
    making.add(
        "hole",
        "-bore",
        {
            "member": part.name,
            "along": min(1.0, max(0.0, laid.fraction)),
            "diameter": part.axle.diameter,
            "across": "thickness",
        },
    )
    if part.shoulder is not None:
        outward = dot(unit(minus(placed.hub, laid.root)), laid.normal)
        making.add(
            "shoulder",
            "-shoulder",
            {
                "member": making.named("-axle"),
                "end": "from",
                "inset": thickness / 2 / abs(outward),
                "larger": part.shoulder.larger,
                "fillet": part.shoulder.fillet,
                "root": part.shoulder.root,
            },
        )
    return making


def _studs(making: Making, part: Knuckle, laid: KnuckleGeometry) -> None:
    """The two ball studs, on the ends that turn freely."""
    axis = laid.axes.x if part.ball_axis == "along" else laid.normal
    default = 1.5 * part.ball.diameter if part.ball_axis == "along" else part.plate.thickness
    for suffix, step, end in (("-lower", "-low-step", "from"), ("-upper", "-high-step", "to")):
        making.add(
            "stud",
            suffix,
            {
                "member": making.named(step) if laid.stepped else part.name,
                "end": "from" if laid.stepped else end,
                "axis": axis,
                "size": part.ball,
                "reach": ball_reach(part),
                "engaged": default if part.ball_engaged is None else part.ball_engaged,
                "into": MaterialOf(part.name),
                **part.work.bolt,
            },
        )


def _assume(making: Making, part: Knuckle) -> None:
    """List what the user left out of a knuckle."""
    d, t = part.ball.diameter, part.plate.thickness
    if part.up is None:
        making.assume("up", "1 0 0")
    making.length("ball_reach", part.ball_reach, 2 * d)
    making.length("ball_engaged", part.ball_engaged, 1.5 * d if part.ball_axis == "along" else t)
    making.length("set", part.offset, plate_offset(part))
