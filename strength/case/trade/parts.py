"""Trade parts as typed: keys read, places still as they stand in the file."""

from collections.abc import Mapping
from typing import Any

from strength.case.model import BoltSize, Vector
from strength.case.shape import Bar, Flat, Shape
from strength.case.trade.entry import Place
from strength.values import field, frozen


@frozen(kw_only=True)
class Pivot:
    """How a wishbone's leg is held: kind `rod end`, `bush` or `fixed` (then without a size)."""

    kind: str
    size: BoltSize | None = None


@frozen(kw_only=True)
class Workmanship:
    """What every trade part hands on to its welds, bolts, studs and members; only the keys given.

    weld: leg, filler, process, quality. bolt: class. member: material.
    """

    weld: Mapping[str, Any] = field(factory=dict)
    bolt: Mapping[str, Any] = field(factory=dict)
    member: Mapping[str, Any] = field(factory=dict)


@frozen(kw_only=True)
class Wishbone:
    """Two legs from their pivots to an outer ball [mm]."""

    name: str
    path: str
    front: Place
    rear: Place
    ball: Place
    tube: Shape
    pivot: Pivot
    rear_tube: Shape | None = None
    spreader: float | None = None
    spreader_tube: Shape | None = None
    cup: float | None = None
    cup_wall: float | None = None
    cup_material: str | None = None
    pivot_reach: float | None = None
    pivot_engaged: float | None = None
    cheek: float | None = None
    work: Workmanship = Workmanship()


@frozen(kw_only=True)
class StepInBar:
    """The step at a stub axle's root [mm]."""

    larger: float
    fillet: float | None = None
    root: str | None = None


@frozen(kw_only=True)
class Knuckle:
    """A plate between two balls that carries a stub axle [mm]."""

    name: str
    path: str
    lower: Place
    upper: Place
    wheel: str
    plate: Flat
    axle: Bar
    ball: BoltSize
    up: Vector | None = None
    axle_material: str | None = None
    ball_reach: float | None = None
    ball_axis: str = "across"  # across | along
    ball_engaged: float | None = None
    offset: float | None = None  # the key `set`
    shoulder: StepInBar | None = None
    work: Workmanship = Workmanship()


@frozen(kw_only=True)
class BoltRow:
    """Equal bolts in a row along a bracket's width: pitch and edge distance [mm]."""

    count: int
    size: BoltSize
    apart: float
    edge: float


@frozen(kw_only=True)
class Bracket:
    """A flat that stands on another part [mm]."""

    name: str
    path: str
    on: str
    tip: Place
    plate: Flat
    wide: Vector
    at: float | None = None
    bolts: BoltRow | None = None
    eye: BoltSize | None = None
    ball: BoltSize | None = None
    ball_reach: float | None = None
    ball_engaged: float | None = None
    work: Workmanship = Workmanship()


Part = Wishbone | Knuckle | Bracket
