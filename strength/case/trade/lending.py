"""Points and members that trade parts are going to make, known before they are made."""

from collections.abc import Callable
from functools import partial

from strength.case.model import Vector
from strength.case.shape import Rigid, Shape
from strength.case.trade.bracket import LaidBracket
from strength.case.trade.entry import Place
from strength.case.trade.knuckle import plate_offset, plate_up
from strength.case.trade.knuckle_geometry import SAME, KnuckleGeometry
from strength.case.trade.names import suffixed
from strength.case.trade.parts import Bracket, Knuckle, Wishbone
from strength.case.trade.placed import Host, PlacedKnuckle, PlacedWishbone
from strength.case.trade.wishbone import is_round, plane_normal, spreader_places
from strength.values import frozen


@frozen(kw_only=True)
class Offer:
    """What a part offers by name: places as typed, points and members found when asked for."""

    part: str
    aliases: dict[str, Place]
    points: dict[str, Callable[[], Vector]]
    hosts: dict[str, Callable[[], Host]]


def offer_wishbone(part: Wishbone, find: Callable[[], PlacedWishbone]) -> Offer:
    """Pivots, ball, legs and cross tube of a wishbone."""

    def name(suffix: str) -> str:
        return suffixed(part.name, suffix)

    def host(side: str, tube: Shape, stands: tuple[str, ...]) -> Host:
        at = find()
        front, rear, _middle = spreader_places(part, at)
        start, end = {"-front": (at.front, at.ball), "-rear": (at.rear, at.ball)}.get(side, (front, rear))
        up = None if is_round(tube) else plane_normal(at.front, at.rear, at.ball)
        turns = side != "-spreader" and part.pivot.kind != "fixed"
        return Host(
            name=name(side), start=start, end=end, shape=tube, up=up, stands=stands, free=(turns, False)
        )

    def spread(index: int) -> Vector:
        return spreader_places(part, find())[index]

    crossed = part.spreader is not None
    cross = ("-spreader-front", "-spreader-rear", "-spreader") if crossed else ()
    hosts: dict[str, Callable[[], Host]] = {}
    for side, tube in (("-front", part.tube), ("-rear", part.rear_tube or part.tube)):
        stands = (name(side), name("-ball"), *((name(f"-spreader{side}"),) if crossed else ()))
        hosts[name(side)] = partial(host, side, tube, stands)
    if crossed:
        tube = part.spreader_tube or part.tube
        hosts[name("-spreader")] = partial(host, "-spreader", tube, tuple(name(suffix) for suffix in cross))
    return Offer(
        part=part.name,
        aliases={name("-front"): part.front, name("-rear"): part.rear, name("-ball"): part.ball},
        points={name(suffix): partial(spread, i) for i, suffix in enumerate(cross)},
        hosts=hosts,
    )


def offer_knuckle(
    part: Knuckle, hub: Place | None, find: Callable[[], tuple[PlacedKnuckle, KnuckleGeometry]]
) -> Offer:
    """Plate, steps and stub axle of a knuckle; `hub` is the wheel's centre as a place."""

    def name(suffix: str) -> str:
        return suffixed(part.name, suffix)

    def plate() -> Host:
        laid = find()[1]
        return Host(
            name=part.name,
            start=laid.low,
            end=laid.high,
            shape=part.plate,
            up=plate_up(part),
            stands=(name("-low"), name("-high"), name("-root")),
            free=(not laid.stepped, not laid.stepped),
        )

    def step(side: str, ball: str) -> Host:
        at, laid = find()
        start, end = (at.lower, laid.low) if side == "-low" else (at.upper, laid.high)
        return Host(
            name=name(f"{side}-step"),
            start=start,
            end=end,
            shape=Rigid(),
            stands=(name(ball), name(side)),
            free=(True, False),
        )

    def axle() -> Host:
        at, laid = find()
        stands = (name("-root"),) if hub is None else (name("-root"), hub)
        return Host(name=name("-axle"), start=laid.root, end=at.hub, shape=part.axle, stands=stands)

    hosts: dict[str, Callable[[], Host]] = {part.name: plate, name("-axle"): axle}
    points: dict[str, Callable[[], Vector]] = {name("-root"): lambda: find()[1].root}
    if abs(plate_offset(part)) < SAME:
        aliases = {name("-low"): part.lower, name("-high"): part.upper}
    else:
        aliases = {name("-lower"): part.lower, name("-upper"): part.upper}
        points[name("-low")] = lambda: find()[1].low
        points[name("-high")] = lambda: find()[1].high
        hosts[name("-low-step")] = partial(step, "-low", "-lower")
        hosts[name("-high-step")] = partial(step, "-high", "-upper")
    return Offer(part=part.name, aliases=aliases, points=points, hosts=hosts)


def offer_bracket(part: Bracket, find: Callable[[], tuple[Host, LaidBracket]]) -> Offer:
    """Root, foot and plate of a bracket; its tip is known by its own name."""

    def name(suffix: str) -> str:
        return suffixed(part.name, suffix)

    bolted = part.bolts is not None
    start = name("-foot") if bolted else name("-root")

    def plate() -> Host:
        laid = find()[1]
        return Host(
            name=part.name,
            start=laid.foot,
            end=laid.tip,
            shape=part.plate,
            up=part.wide,
            stands=(start, part.name),
        )

    def step() -> Host:
        laid = find()[1]
        return Host(
            name=name("-step"),
            start=laid.root,
            end=laid.foot,
            shape=Rigid(),
            stands=(name("-root"), name("-foot")),
        )

    points: dict[str, Callable[[], Vector]] = {name("-root"): lambda: find()[1].root}
    hosts: dict[str, Callable[[], Host]] = {part.name: plate}
    if bolted:
        points[name("-foot")] = lambda: find()[1].foot
        hosts[name("-step")] = step
    return Offer(part=part.name, aliases={part.name: part.tip}, points=points, hosts=hosts)
