"""What a bolt, a shoulder screw or a pin is made of, as a joint is designed with it."""

from math import pi

from strength.case.model import BoltSize
from strength.errors import UnknownNameError
from strength.library.bolt import BoltClass, find_bolt_class
from strength.library.screws import shoulder_screw
from strength.library.threads import Thread, thread
from strength.values import frozen

YIELD_RATIO = 0.9  # class 12.9: yield over ultimate (ISO 898-1)


@frozen(kw_only=True)
class Fastener:
    """One bolt, screw or pin [mm, mm^2, MPa].

    diameter: what bears on the plates. shear_factor x ultimate x shear_area: the shear resistance of
    one plane (characteristic). tension_area: None where it carries no pull, or none that is known.
    bending_diameter: the root where the thread is in the shear plane. bearing_mean: dm under head or
    nut, None for a pin. outside: why EN 1993-1-8 does not cover it; "" where it does.
    """

    size: BoltSize
    grade: BoltClass
    diameter: float
    ultimate: float
    yield_: float
    shear_factor: float
    shear_area: float
    tension_area: float | None
    bending_diameter: float
    bearing_mean: float | None
    thread: Thread | None
    outside: str

    @property
    def kind(self) -> str:
        """Kind of metal that the factors go by."""
        return "stainless" if self.grade.stainless else "steel"

    @property
    def is_pin(self) -> bool:
        """True for a plain pin."""
        return self.size.kind == "pin"

    @property
    def shear(self) -> float:
        """alpha_v fub A of one plane [N], characteristic."""
        return self.shear_factor * self.ultimate * self.shear_area

    @property
    def tension(self) -> float | None:
        """0.9 fub As [N], characteristic (EN 1993-1-8 Table 3.4)."""
        return None if self.tension_area is None else 0.9 * self.ultimate * self.tension_area

    @property
    def bending(self) -> float:
        """1.5 W fy [N*mm], characteristic (EN 1993-1-8 Table 3.10)."""
        return 1.5 * pi * self.bending_diameter**3 / 32.0 * self.yield_


def fastener(size: BoltSize, grade: str, *, thread_in_shear: bool) -> Fastener:
    """The fastener of a size and property class.

    Raises UnknownNameError or RangeError for a class or a thread that the library does not hold.
    """
    held = find_bolt_class(grade, size.diameter)
    outside = "" if held.in_code else f"class {grade} is none of EN 1993-1-8"
    if size.kind == "thread":
        return _threaded(size, held, thread(size.text), outside, thread_in_shear=thread_in_shear)
    if size.kind == "shoulder":
        return _shoulder(size, held, outside, thread_in_shear=thread_in_shear)
    return Fastener(
        size=size,
        grade=held,
        diameter=size.diameter,
        ultimate=held.ultimate,
        yield_=held.yield_,
        shear_factor=held.shear_shank,
        shear_area=pi / 4.0 * size.diameter**2,
        tension_area=None,
        bending_diameter=size.diameter,
        bearing_mean=None,
        thread=None,
        outside=outside,
    )


def _threaded(
    size: BoltSize, held: BoltClass, own: Thread, outside: str, *, thread_in_shear: bool
) -> Fastener:
    return Fastener(
        size=size,
        grade=held,
        diameter=own.diameter,
        ultimate=held.ultimate,
        yield_=held.yield_,
        shear_factor=held.shear_thread if thread_in_shear else held.shear_shank,
        shear_area=own.stress_area if thread_in_shear else own.shank_area,
        tension_area=own.stress_area,
        bending_diameter=own.root if thread_in_shear else own.diameter,
        bearing_mean=own.head_mean,
        thread=own,
        outside=outside,
    )


def _shoulder(size: BoltSize, held: BoltClass, outside: str, *, thread_in_shear: bool) -> Fastener:
    """A shoulder screw: the shoulder is sheared, the neck at the thread is pulled.

    ISO 7379 knows class 12.9 only, with 1100 MPa at the neck; a lower class given counts as given.
    """
    try:
        screw = shoulder_screw(size.diameter)
    except UnknownNameError:
        screw = None
    most = held.ultimate if screw is None else screw.ultimate
    ultimate = min(held.ultimate, most)
    own = None if screw is None else thread(screw.thread)
    in_thread = thread_in_shear and own is not None
    return Fastener(
        size=size,
        grade=held,
        diameter=size.diameter,
        ultimate=ultimate,
        yield_=min(held.yield_, YIELD_RATIO * most),
        shear_factor=held.shear_thread if in_thread else held.shear_shank,
        shear_area=own.stress_area if in_thread and own else pi / 4.0 * size.diameter**2,
        tension_area=None if screw is None else screw.neck_area,
        bending_diameter=own.root if in_thread and own else size.diameter,
        bearing_mean=None if own is None else own.head_mean,
        thread=own,
        outside=outside,
    )
