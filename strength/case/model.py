"""The case as plain frozen values: what a file says, checked, in mm, N, N*mm, MPa, kg and rad.

Body axes: x forward, y left, z up. A place is text, in the end a name of `Case.points`; `path`: see faults.
"""

from collections.abc import Mapping
from typing import Any

from strength.case.dropout import Dropout
from strength.case.road import Road
from strength.case.shape import End, Shape
from strength.library import Filler, Metal
from strength.values import field, frozen

Vector = tuple[float, float, float]


@frozen(kw_only=True)
class Point:
    """A point of the structure, `at` in body axes [mm]."""

    name: str
    at: Vector
    path: str = ""


@frozen(kw_only=True)
class Member:
    """A straight part from `start` to `end`, through its `via` points in order."""

    name: str
    start: str
    end: str
    shape: Shape
    material: str = ""
    via: tuple[str, ...] = ()
    from_end: str = "fixed"  # fixed | ball | hinge
    to_end: str = "fixed"
    hinge_axis: Vector | None = None
    up: Vector | None = None  # as given; None: body z, or body x within 8 degrees of z
    buckling_factor: float | None = None
    only_path: bool = False
    path: str = ""


@frozen(kw_only=True)
class Strut:
    """A pin-ended part, axial only: `stiffness` [N/mm], or `shape` and `material`, or it holds its length."""

    name: str
    start: str
    end: str
    stiffness: float | None = None
    shape: Shape | None = None
    material: str = ""
    up: Vector | None = None
    buckling_factor: float | None = None
    only_path: bool = False
    path: str = ""


@frozen(kw_only=True)
class Support:
    """A held point; `hold` says which of x y z rx ry rz, body axes."""

    name: str
    at: str
    hold: tuple[bool, bool, bool, bool, bool, bool]
    path: str = ""


@frozen(kw_only=True)
class Wheel:
    """A wheel; the tyre touches the ground `radius` [mm] below the centre along body z."""

    name: str
    centre: str
    radius: float
    axle: Vector = (0.0, 1.0, 0.0)  # unit
    braked: bool = False
    driven: bool = False
    caliper: str | None = None
    grip: float = 0.8
    path: str = ""


@frozen(kw_only=True)
class Tow:
    """A hitch or drawbar eye."""

    name: str
    at: str
    path: str = ""


@frozen(kw_only=True)
class Mass:
    """A mass [kg] with its centre `at` [mm] and the points that carry it (none: not carried)."""

    name: str
    mass: float
    at: Vector
    carried_by: tuple[str, ...] = ()
    payload: bool = False
    gyration: float = 0.0  # mm
    path: str = ""


@frozen(kw_only=True)
class Strike:
    """A knock on one wheel, in multiples of that wheel's standing load."""

    wheel: str
    up: float
    back: float = 0.0
    inward: float = 0.0


@frozen(kw_only=True)
class HandForce:
    """A force [N] and moment [N*mm] put on a point by hand, body axes."""

    at: str
    force: Vector = (0.0, 0.0, 0.0)
    moment: Vector = (0.0, 0.0, 0.0)


@frozen(kw_only=True)
class Load:
    """One load, already split into left and right where the file says so; mm/s^2."""

    name: str
    severity: str = "routine"  # routine | hard | abuse
    vertical: float = 1.0  # multiple of g
    braking: float = 0.0
    driving: float = 0.0
    cornering: float = 0.0  # positive in a left turn: acceleration to the left
    strike: Strike | None = None
    off_ground: tuple[str, ...] = ()
    forces: tuple[HandForce, ...] = ()
    path: str = ""


@frozen(kw_only=True)
class Plate:
    """A plate that a joint goes through or is welded onto [mm]; edge and hole where bolted."""

    thickness: float
    material: str
    edge: float = 0.0
    hole: float = 0.0


@frozen(kw_only=True)
class Weld:
    """Fillet weld at one end of a member; `lines` (y1, z1, y2, z2) in member axes [mm]."""

    name: str
    member: str
    end: End
    leg: float
    filler: str
    process: str  # mig | tig | stick | braze
    quality: str = "ordinary"  # good | ordinary | poor
    inset: float = 0.0
    pattern: str = "around"  # around | sides | lines
    lines: tuple[tuple[float, float, float, float], ...] = ()
    onto: str | Plate | None = None  # a member's name, or a plate
    method: str = "line"  # line | ultimate (allowable basis, in the weld's plane)
    directional: bool = False  # the throat gains by the force's angle to the weld (allowable basis)
    only_path: bool | None = None
    path: str = ""


@frozen(kw_only=True)
class BoltSize:
    """`kind` thread | shoulder | pin; `text` as typed ("M10"); `diameter` of shank or pin [mm]."""

    kind: str
    text: str
    diameter: float


@frozen(kw_only=True)
class Bolt:
    """A bolt, shoulder screw or pin that carries the force of a member's or strut's end."""

    name: str
    member: str
    end: End
    size: BoltSize
    grade: str  # property class, such as "8.8" or "A2-70"
    axis: Vector
    shear_planes: int = 1
    thread_in_shear: bool = True
    gap: float = 0.0
    group: tuple[Vector, ...] = ()
    plates: tuple[Plate, ...] = ()
    lug: tuple[float, float] | None = None  # of the carried plate: hole to its end, to its side [mm]
    only_path: bool | None = None
    path: str = ""


@frozen(kw_only=True)
class Stud:
    """A rod end or ball joint screwed into a part."""

    name: str
    member: str
    end: End
    size: BoltSize
    grade: str
    reach: float
    engaged: float
    axis: Vector | None = None  # None: along the member
    into: str = ""  # metal; "" : the member's own
    rating_radial: float | None = None
    rating_axial: float | None = None
    only_path: bool | None = None
    path: str = ""


@frozen(kw_only=True)
class Hole:
    """A drilled hole in a flat; `along` is a fraction of the length."""

    name: str
    member: str
    along: float
    diameter: float
    across: str = "thickness"  # thickness | width
    off_centre: float = 0.0
    path: str = ""


@frozen(kw_only=True)
class Shoulder:
    """A step in a round bar, with a fillet radius or the root of a thread (`root`, "M12")."""

    name: str
    member: str
    end: End
    larger: float
    inset: float = 0.0
    fillet: float | None = None
    root: str | None = None
    path: str = ""


@frozen(kw_only=True)
class Sleeve:
    """Tube in tube: `member` is the inner one; `outer` a member's name or a shape."""

    name: str
    member: str
    end: End
    outer: str | Shape
    overlap: float
    bolt: BoltSize | None = None
    slot: float | None = None  # of the outer tube, from its mouth [mm]
    grade: str = ""
    only_path: bool | None = None
    path: str = ""


@frozen(kw_only=True)
class Clamp:
    """A split clamp on a tube or bar."""

    name: str
    member: str
    end: End
    diameter: float
    bolt_count: int
    bolt: BoltSize
    grade: str
    friction: float = 0.15
    only_path: bool | None = None
    path: str = ""


@frozen(kw_only=True)
class Basis:
    """Design basis; `factors` holds the overrides: name -> (routine, hard, abuse)."""

    method: str = "allowable"  # allowable | limit-state
    factors: dict[str, tuple[float | None, float | None, float | None]] = field(factory=dict)
    shear_flexible: bool = True
    wall: str = "nominal"  # nominal | minimum


@frozen(kw_only=True)
class Assumed:
    """A value the user left out and the tool filled in."""

    part: str
    key: str
    value: str


@frozen(kw_only=True)
class Warned:
    """A warning about a part: not an error, but worth a look."""

    part: str
    text: str


@frozen(kw_only=True)
class NotChecked:
    """Something of a part that was read but is not checked, and why."""

    part: str
    kind: str
    why: str


@frozen(kw_only=True)
class Case:
    """A whole case: every part in plain entries, both sides, in file order."""

    title: str
    notes: str = ""
    units: str = "metric"  # metric | inch: what tables show
    leaning: float = 0.0  # rad, greatest lean
    basis: Basis = Basis()
    points: tuple[Point, ...] = ()
    members: tuple[Member, ...] = ()
    struts: tuple[Strut, ...] = ()
    supports: tuple[Support, ...] = ()
    wheels: tuple[Wheel, ...] = ()
    tows: tuple[Tow, ...] = ()
    masses: tuple[Mass, ...] = ()
    loads: tuple[Load, ...] = ()
    welds: tuple[Weld, ...] = ()
    bolts: tuple[Bolt, ...] = ()
    studs: tuple[Stud, ...] = ()
    holes: tuple[Hole, ...] = ()
    shoulders: tuple[Shoulder, ...] = ()
    sleeves: tuple[Sleeve, ...] = ()
    clamps: tuple[Clamp, ...] = ()
    dropouts: tuple[Dropout, ...] = ()
    road: Road | None = None
    metals: dict[str, Metal] = field(factory=dict)  # every metal named anywhere in the case
    fillers: dict[str, Filler] = field(factory=dict)
    assumed: tuple[Assumed, ...] = ()
    warnings: tuple[Warned, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()
    spread: Mapping[str, Any] = field(factory=dict)  # the table [spread] as typed
    data: bytes = b""  # the file as it lies on the disk
