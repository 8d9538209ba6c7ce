"""A plate, box or tube standing on a wall, as the tables of EN 1993-1-8 section 7 see it."""

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar, Flat, Tube
from strength.checks.context import Context
from strength.checks.walls import WallJoint
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]
Outside = tuple[tuple[Bool, str], ...]

SKEW = float(np.cos(np.radians(15.0)))  # a part turned further out of line is out of range (own choice)
SQUARE = float(np.radians(10.0))  # how near a right angle tables for a right angle hold (own choice)
SHARE = 0.01  # of the whole: a part that the table gives no resistance may be this great (own choice)


@frozen(kw_only=True, eq=False)
class Standing:
    """The standing part, (designs, 1) [mm, mm^2, mm^3].

    b1 across the host, h1 along it, t1 its thickness or wall. modulus_in, modulus_out: elastic, for
    bending in the plane of both and out of it. along: a plate whose width lies along the host.
    turned: out of line with the host by over 15 degrees.
    """

    b1: Array
    h1: Array
    t1: Array
    area: Array
    modulus_in: Array
    modulus_out: Array
    round: bool
    plate: bool
    along: bool
    turned: bool


def standing(context: Context, joint: WallJoint) -> Standing:
    """The welded member as it stands on its host."""
    bars, bar, shape = context.bars, joint.effect.seat.bar, joint.effect.seat.shape
    depth, width, wall = (v[:, bar, None] for v in (bars.depth, bars.width, bars.wall))
    modulus_y, modulus_z = bars.modulus_y[:, bar, None], bars.modulus_z[:, bar, None]
    host = joint.meeting.host.axes[0]
    across = float(np.hypot(host[1], host[2]))
    along = abs(float(host[2])) >= abs(float(host[1]))
    nearest = max(abs(float(host[1])), abs(float(host[2]))) / across
    is_round, plate = isinstance(shape, Tube | Bar), isinstance(shape, Flat)
    return Standing(
        b1=width if along else depth,
        h1=depth if along else width,
        t1=width if plate else wall / 2.0 if isinstance(shape, Bar) else wall,
        area=bars.area[:, bar, None],
        modulus_in=modulus_y if along else modulus_z,
        modulus_out=modulus_z if along else modulus_y,
        round=is_round,
        plate=plate,
        along=along,
        turned=not is_round and nearest < SKEW,
    )


def line_width(stand: Standing) -> tuple[Array, Array]:
    """Lever arms of Table 7.3 and 7.13: of moments in the plane (h1) and out of it (b1/2) [mm].

    A plate's own thickness gives it an arm of half of it: own choice, as for a box that thin; the
    tables give such a plate nothing, and rows that need it are out of range.
    """
    if stand.plate and not stand.along:
        return 0.5 * stand.t1, 0.5 * stand.b1
    return stand.h1, 0.5 * stand.b1


def common(joint: WallJoint, stand: Standing, ratios: tuple[Array, Array, Array], use: Array) -> Outside:
    """What leaves the range whatever the table: skew parts, crowds, plates bent about their thickness."""
    weld = joint.effect.weld
    found: list[tuple[Bool, str]] = [
        (np.full((1, 1), stand.turned), f"{weld.member} stands over 15 degrees out of line with {weld.onto}"),
    ]
    found += [
        (one.gap[:, None] < 0.0, f"{one.other.seat.weld.member} meets the wall at the same place")
        for one in joint.near
        if one.kind != "opposite"
    ]
    if stand.plate:
        lean = ratios[2] if stand.along else ratios[1]
        why = "a plate bent about its own thickness: the table gives it nothing for that"
        found.append((lean > SHARE * use, why))
        skew = np.full((1, 1), joint.meeting.angle < np.pi / 2.0 - SQUARE)
        found.append((skew, "a plate that does not stand square"))
    return tuple(found)


def words(joint: WallJoint, stand: Standing) -> str:
    """What stands how."""
    if stand.plate:
        text = f"plate {'along' if stand.along else 'across'} {joint.effect.weld.onto}"
    else:
        text = f"{'round' if stand.round else 'box'} on {joint.effect.weld.onto}"
    return f"{text}, {np.degrees(joint.meeting.angle):.0f} degrees"
