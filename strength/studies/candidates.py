"""Sizes that a part could have instead: what is sold, lightest first."""

import math

from strength import units
from strength.case.model import Bolt, BoltSize, Stud
from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.errors import CaseError, QuantityError
from strength.library import Metal, stock
from strength.library.sizes import StockSize
from strength.values import frozen

LEG_STEP = 0.5  # mm
LEAST_LEG = 1.0  # mm
SENSIBLE = 1.2  # of the thinnest wall joined: common practice, no source
MOST = 2.0  # of the thinnest wall: how far legs are tried
PINS = (4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0)  # mm: common practice, no source
LARGEST_THREAD = 24.0  # mm


@frozen
class Between:
    """A range of lengths [mm] to keep; both ends count."""

    low: float = 0.0
    high: float = math.inf

    def holds(self, length: float) -> bool:
        """Whether a length is in it, to a thousandth of a millimetre."""
        return self.low - 1e-3 <= length <= self.high + 1e-3


ANY = Between()


def between(text: str) -> Between:
    """A length, or two with .. between them, nothing for any; raises QuantityError.

    >>> between("20 .. 30 mm"), between("..1 in")
    (Between(low=20.0, high=30.0), Between(low=0.0, high=25.4))
    """
    if not text.strip():
        return ANY
    first, dots, last = (part.strip() for part in text.partition(".."))
    if not dots:
        only = units.quantity(first, "length")
        return Between(only, only)
    if first and last and first.replace(".", "", 1).isdigit():  # the unit stands behind the second
        first += " " + last.lstrip("0123456789.+-eE ")
    low = units.quantity(first, "length") if first else 0.0
    high = units.quantity(last, "length") if last else math.inf
    if low > high:
        raise QuantityError(text, "begins with the greater of the two: write the smaller first")
    return Between(low, high)


def sections(
    shape: Shape | None, now: str, metal: Metal | None, *, od: Between, wall: Between
) -> tuple[str, ...]:
    """Section texts of all stock sizes of a shape's kind in a metal, lightest first.

    od: outside diameter, or either side of a box; wall: wall, thickness or, of a bar, nothing. now: the
    text of the section as typed. Raises CaseError for a shape that is not sold.
    """
    match shape:
        case Tube():
            return _texts(stock("tube", metal), od, wall)
        case Bar():
            return _texts(stock("bar", metal), od, ANY)
        case Box():
            square = now.split(maxsplit=1)[0] == "square" if now else shape.depth == shape.width
            lying = shape.depth < shape.width
            return _texts(stock("square" if square else "box", metal), od, wall, lying=lying)
        case Flat():
            return thicknesses(shape, now, metal, wall=wall)
    raise CaseError([("", f"{now or 'what it is'}: no stock sizes are held of this kind of section")])


def thicknesses(shape: Flat, now: str, metal: Metal | None, *, wall: Between) -> tuple[str, ...]:
    """The same flat in all stock thicknesses, thinnest first; its width stays as typed."""
    width = now.split("x", maxsplit=1)[0].removeprefix("flat").strip() if now.startswith("flat") else ""
    if not width or width.replace(".", "").isdigit():
        width = f"{width or format(shape.width, '.12g')} {_unit(now)}"
    sizes = [size for size in stock("flat", metal) if wall.holds(size.dimensions[0])]
    kept = {size.dimensions[0]: size.text for size in reversed(sizes)}
    return tuple(f"flat {_joined(width, kept[thickness])}" for thickness in sorted(kept))


def _unit(now: str) -> str:
    """The unit at the end of a section's text."""
    return now.rsplit(maxsplit=1)[-1] if now and now.rsplit(maxsplit=1)[-1].isalpha() else "mm"


def _joined(width: str, thickness: str) -> str:
    """Width and thickness, one unit written once."""
    number, _, unit = width.rpartition(" ")
    return f"{number} x {thickness}" if thickness.endswith(f" {unit}") else f"{width} x {thickness}"


def _texts(
    sizes: tuple[StockSize, ...], od: Between, wall: Between, *, lying: bool = False
) -> tuple[str, ...]:
    found: dict[tuple[float, ...], str] = {}
    for size in sizes:
        sides = size.dimensions[:-1] if size.shape != "bar" else size.dimensions
        if any(od.holds(side) for side in sides) and (size.shape == "bar" or wall.holds(size.dimensions[-1])):
            text = size.text
            if lying and size.shape == "box":
                depth, width, rest = text.removeprefix("box ").split(" x ", 2)
                text = f"box {width} x {depth} x {rest}"
            found.setdefault(tuple(round(side, 6) for side in size.dimensions), text)
    return tuple(found.values())


def fastener_sizes(part: Bolt | Stud) -> tuple[str, ...]:
    """Sizes of the same kind: threads, shoulder screws or pins, smallest first."""
    return {"thread": _threads, "shoulder": _shoulders, "pin": _pins}[part.size.kind](part.size)


def _threads(now: BoltSize) -> tuple[str, ...]:
    from strength.library import data

    fine = "x" in now.text
    names = [name for name in data.names("thread") if ("x" in name) == fine]
    sized = sorted((float(name[1:].split("x")[0]), name) for name in names)
    return tuple(name for diameter, name in sized if diameter <= max(LARGEST_THREAD, now.diameter))


def _shoulders(_now: BoltSize) -> tuple[str, ...]:
    from strength.library import data

    found = [float(name.split()[-1]) for name in data.names("shoulder")]
    return tuple(f"shoulder {diameter:g} mm" for diameter in sorted(found))


def _pins(_now: BoltSize) -> tuple[str, ...]:
    return tuple(f"pin {diameter:g} mm" for diameter in PINS)


def legs(thinnest: float, now: float) -> tuple[str, ...]:
    """Legs in steps of 0.5 mm, from 1 mm to twice the thinnest wall joined [mm], and at least the one now."""
    most = max(MOST * thinnest, now, LEAST_LEG)
    count = math.ceil((most - LEAST_LEG) / LEG_STEP - 1e-9)
    return tuple(f"{LEAST_LEG + n * LEG_STEP:g} mm" for n in range(count + 1))


def greatest_sensible_leg(thinnest: float) -> float:
    """The greatest leg that suits the thinnest wall joined [mm]: 1.2 of it, rounded up to 0.5 mm.

    Common practice, no source.

    >>> greatest_sensible_leg(1.5), greatest_sensible_leg(3.0)
    (2.0, 4.0)
    """
    return max(LEAST_LEG, math.ceil(SENSIBLE * thinnest / LEG_STEP - 1e-9) * LEG_STEP)
