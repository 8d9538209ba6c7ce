"""A wishbone: two legs, their pivots, the cup at the ball and a cross tube between the legs."""

from collections.abc import Callable

from strength.case.model import BoltSize, Vector
from strength.case.shape import Bar, Shape, Tube
from strength.case.trade.axes import face_distance, half_sizes, member_axes
from strength.case.trade.making import Making
from strength.case.trade.parts import Wishbone
from strength.case.trade.placed import PlacedWishbone
from strength.case.trade.vector import along, cross, distance, minus, off_line, unit

SAME = 0.01  # mm
PLAIN_STEEL = "S235JR"
CUP_WALL = 6.0  # mm
PIVOT_WALL = 5.0  # mm, the rod end's boss or the bush the leg is welded onto
CLEARANCE = 0.2  # mm, a reamed or drilled hole over its bolt
EDGE = 1.7  # edge distance in bolt diameters


def wishbone_faults(part: Wishbone, front: Vector, rear: Vector, ball: Vector) -> list[str]:
    """What is wrong with a wishbone's places [mm]."""
    if distance(front, rear) < SAME:
        return ["`front` and `rear` are the same place: the two pivots of a wishbone stand apart"]
    found = []
    off = off_line(ball, front, rear)
    if off < 1.0:
        found.append(
            f"the ball lies on the line through both pivots ({off:.2g} mm off it), so the wishbone has no "
            "arm: check `front`, `rear` and `ball`"
        )
    if part.spreader is not None and not 0.05 <= part.spreader <= 0.95:
        found.append(
            f"`spreader` is {part.spreader:g}: it is the fraction of the way from pivot to ball, "
            "between 0.05 and 0.95"
        )
    sizeless = [tube for tube in (part.tube, part.rear_tube or part.tube) if half_sizes(tube) is None]
    if sizeless and part.cup is None:
        found.append(
            "`cup` is missing, and the legs have no outside diameter to take it from: how far is the weld?"
        )
    if sizeless and part.spreader is not None:
        found.append(
            "`spreader` needs legs of a known size to be welded onto: give `tube` as a tube, box or flat"
        )
    return found


def make_wishbone(part: Wishbone, placed: PlacedWishbone, settle: Callable[[str], str]) -> Making:
    """The plain entries of a wishbone whose places are found and free of faults."""
    making = Making(part, f"wishbone {part.name}", settle)
    tubes = {"front": part.tube, "rear": part.rear_tube or part.tube}
    if part.rear_tube is None:
        making.assume("rear_tube", "as tube")
    normal = plane_normal(placed.front, placed.rear, placed.ball)
    axis = unit(minus(placed.front, placed.rear))
    points = {side: making.point(f"-{side}") for side in tubes}
    ball = making.point("-ball")
    crossed = part.spreader is not None
    via = {side: (making.point(f"-spreader-{side}"),) if crossed else None for side in tubes}
    for side, tube in tubes.items():
        making.add(
            "member",
            f"-{side}",
            {
                "from": points[side],
                "to": ball,
                "via": via[side],
                "section": tube,
                "up": None if is_round(tube) else normal,
                **_pivot_ends(part, axis),
                **part.work.member,
            },
        )
    if crossed:
        _spreader(making, part, placed, normal, tubes)
    for side, tube in tubes.items():
        _pivot(making, part, side, axis)
        _cup(making, part, side, tube)
    return making


def spreader_places(part: Wishbone, placed: PlacedWishbone) -> tuple[Vector, Vector, Vector]:
    """Where the cross tube meets the front leg, the rear leg, and its middle [mm]."""
    fraction = part.spreader or 0.0
    front, rear = (along(pivot, placed.ball, fraction) for pivot in (placed.front, placed.rear))
    return front, rear, along(front, rear, 0.5)


def plane_normal(front: Vector, rear: Vector, ball: Vector) -> Vector:
    """Unit normal of the plane of three places, upward; forward where that plane is upright."""
    normal = unit(cross(minus(front, ball), minus(rear, ball)))
    leading = next(part for part in (normal[2], normal[0], normal[1]) if abs(part) > 1e-9)
    return normal if leading > 0 else (-normal[0], -normal[1], -normal[2])


def across(shape: Shape) -> float:
    """Outside diameter of a leg [mm]; the greater side of one that is not round, 0 of one without size."""
    return 2 * max(half_sizes(shape) or (0.0, 0.0))


def is_round(shape: Shape) -> bool:
    """Whether a section is a tube or a bar, without an `up` of its own."""
    return isinstance(shape, Tube | Bar)


def _pivot_ends(part: Wishbone, axis: Vector) -> dict[str, object]:
    """Keys of a leg's end at its pivot; `axis` from rear to front, unit."""
    match part.pivot.kind:
        case "rod end":
            return {"from_end": "ball"}
        case "bush":
            return {"from_end": "hinge", "hinge_axis": axis}
        case _:
            return {}


def _pivot(making: Making, part: Wishbone, side: str, axis: Vector) -> None:
    """Rod end, bolt and weld of one pivot; nothing where the leg is fixed."""
    size = part.pivot.size
    if size is None:
        return
    leg = making.named(f"-{side}")
    d = size.diameter
    rod_end = part.pivot.kind == "rod end"
    if rod_end:
        _rod_end(making, part, side, size)
    making.add(
        "bolt",
        f"-{side}-pivot",
        {
            "member": leg,
            "end": "from",
            "axis": axis,
            "size": size,
            "shear_planes": 2,
            "plates": _pivot_plates(making, part, d),
            **part.work.bolt,
        },
    )
    making.add(
        "weld",
        f"-{side}-pivot",
        {
            "member": leg,
            "end": "from",
            "inset": 3 * d if rod_end else d,
            "pattern": "around",
            "onto": {"thickness": PIVOT_WALL, "material": PLAIN_STEEL},
            **part.work.weld,
        },
    )
    if side == "front":
        making.assume(
            "pivot weld", f"{(3 if rod_end else 1) * d:g} mm from the pivot, onto 5 mm {PLAIN_STEEL}"
        )


def _rod_end(making: Making, part: Wishbone, side: str, size: BoltSize) -> None:
    d = size.diameter
    reach, engaged = part.pivot_reach, part.pivot_engaged
    if side == "front":  # both sides alike: listed once
        reach = making.length("pivot_reach", reach, 2 * d)
        engaged = making.length("pivot_engaged", engaged, 1.5 * d)
        making.assume("pivot into", PLAIN_STEEL)
    making.add(
        "stud",
        f"-{side}-rodend",
        {
            "member": making.named(f"-{side}"),
            "end": "from",
            "size": size,
            "reach": 2 * d if reach is None else reach,
            "engaged": 1.5 * d if engaged is None else engaged,
            "into": PLAIN_STEEL,
            **part.work.bolt,
        },
    )


def _pivot_plates(making: Making, part: Wishbone, d: float) -> tuple[dict[str, object], ...] | None:
    """The bush or ball between its cheeks, 2 d long (own choice); None without a cheek thickness."""
    if part.cheek is None:
        return None
    edge, hole = EDGE * d, d + CLEARANCE
    if not any(a.key == "cheek" for a in making.assumed):
        text = f"{PLAIN_STEEL}, edge {edge:g} mm, hole {hole:g} mm, {2 * d:g} mm between the cheeks"
        making.assume("cheek", text)
    return (
        {"thickness": 2 * d, "material": PLAIN_STEEL, "edge": edge, "hole": hole},
        {"thickness": part.cheek, "material": PLAIN_STEEL, "edge": edge, "hole": hole},
    )


def _cup(making: Making, part: Wishbone, side: str, tube: Shape) -> None:
    """The weld of a leg to the cup around the ball."""
    inset = part.cup if part.cup is not None else across(tube)
    wall = CUP_WALL if part.cup_wall is None else part.cup_wall
    material = part.cup_material or PLAIN_STEEL
    if part.cup is None and (side == "front" or part.rear_tube is not None):
        making.assume("cup" if part.rear_tube is None else f"cup, {side}", f"{inset:g} mm")
    if side == "front" and part.cup_wall is None:
        making.assume("cup_wall", f"{wall:g} mm")
    if side == "front" and part.cup_material is None:
        making.assume("cup_material", material)
    making.add(
        "weld",
        f"-{side}-cup",
        {
            "member": making.named(f"-{side}"),
            "end": "to",
            "inset": inset,
            "pattern": "around",
            "onto": {"thickness": wall, "material": material},
            **part.work.weld,
        },
    )


def _spreader(
    making: Making, part: Wishbone, placed: PlacedWishbone, normal: Vector, tubes: dict[str, Shape]
) -> None:
    """The cross tube and its two welds onto the legs."""
    section = part.spreader_tube or part.tube
    if part.spreader_tube is None:
        making.assume("spreader_tube", "as tube")
    name = making.add(
        "member",
        "-spreader",
        {
            "from": making.point("-spreader-front"),
            "to": making.point("-spreader-rear"),
            "via": (making.point("-spreader"),),
            "section": section,
            "up": None if is_round(section) else normal,
            **part.work.member,
        },
    )
    way = unit(minus(placed.rear, placed.front))  # parallel to the cross tube at any fraction
    for side, end, pivot in (("front", "from", placed.front), ("rear", "to", placed.rear)):
        host = member_axes(pivot, placed.ball, None if is_round(tubes[side]) else normal)
        making.add(
            "weld",
            f"-spreader-{side}",
            {
                "member": name,
                "end": end,
                "inset": None if host is None else face_distance(tubes[side], host, way),
                "pattern": "around",
                "onto": making.named(f"-{side}"),
                **part.work.weld,
            },
        )
