"""Plates, boxes or tubes standing on walls, as the tables of EN 1993-1-8 section 7 see them."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar
from strength.checks.context import Context
from strength.checks.wall_columns import Reason, WallColumns, by_joint, of_bars
from strength.checks.wall_kinds import MakeUp
from strength.checks.wall_verdicts import reasons_beside
from strength.checks.walls import WallJoint
from strength.joints.meeting import Neighbour
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]

SKEW = float(np.cos(np.radians(15.0)))  # a part turned further out of line is out of range (own choice)
SQUARE = float(np.radians(10.0))  # how near a right angle tables for a right angle hold (own choice)
SHARE = 0.01  # of the whole: a part that the table gives no resistance may be this great (own choice)


@frozen(kw_only=True, eq=False)
class Standing:
    """Standing parts of one make-up, (joints, 1, designs) [mm, mm^2, mm^3].

    b1 across the host, h1 along it, t1 the thickness or wall. modulus_in, modulus_out: elastic, for
    bending in the plane of both and out of it. turned: (joints, 1, 1) out of line with the host by over
    15 degrees.
    """

    make_up: MakeUp
    b1: Array
    h1: Array
    t1: Array
    area: Array
    modulus_in: Array
    modulus_out: Array
    turned: Bool


def standing(context: Context, joints: Sequence[WallJoint], own: MakeUp) -> Standing:
    """The welded members of joints of one make-up as they stand on their hosts."""
    bars, number = context.bars, [joint.effect.seat.bar for joint in joints]
    depth, width, wall = (of_bars(v, number) for v in (bars.depth, bars.width, bars.wall))
    modulus_y, modulus_z = of_bars(bars.modulus_y, number), of_bars(bars.modulus_z, number)
    solid = by_joint(isinstance(joint.effect.seat.shape, Bar) for joint in joints)
    host = np.abs([joint.meeting.host.axes[0, 1:] for joint in joints])
    nearest = host.max(axis=1) / np.sqrt((host * host).sum(axis=1))
    return Standing(
        make_up=own,
        b1=width if own.along else depth,
        h1=depth if own.along else width,
        t1=width if own.plate else np.where(solid, wall / 2.0, wall),
        area=of_bars(bars.area, number),
        modulus_in=modulus_y if own.along else modulus_z,
        modulus_out=modulus_z if own.along else modulus_y,
        turned=(nearest[:, None, None] < SKEW) & (not own.round),
    )


def line_width(stand: Standing) -> tuple[Array, Array]:
    """Lever arms of Table 7.3 and 7.13: of moments in the plane (h1) and out of it (b1/2) [mm].

    A plate's own thickness gives it an arm of half of it: own choice, as for a box that thin; the
    tables give such a plate nothing, and rows that need it are out of range.
    """
    if stand.make_up.plate and not stand.make_up.along:
        return 0.5 * stand.t1, 0.5 * stand.b1
    return stand.h1, 0.5 * stand.b1


def common(
    columns: WallColumns, stand: Standing, ratios: tuple[Array, Array, Array], use: Array
) -> Iterator[Reason]:
    """What leaves the range whatever the table: skew parts, crowds, plates bent about their thickness."""
    welds = [joint.effect.weld for joint in columns.joints]
    yield stand.turned, [f"{one.member} stands over 15 degrees out of line with {one.onto}" for one in welds]

    def crowd(_: int, one: Neighbour) -> tuple[Bool, str] | None:
        if one.kind == "opposite":
            return None
        return one.gap < 0.0, f"{one.other.seat.weld.member} meets the wall at the same place"

    yield from reasons_beside(columns.joints, use.shape[2], crowd)
    if stand.make_up.plate:
        lean = ratios[2] if stand.make_up.along else ratios[1]
        why = "a plate bent about its own thickness: the table gives it nothing for that"
        yield lean > SHARE * use, why
        yield columns.angle < np.pi / 2.0 - SQUARE, "a plate that does not stand square"


def words(joint: WallJoint, own: MakeUp) -> str:
    """What stands how."""
    onto = joint.effect.weld.onto
    if own.plate:
        text = f"plate {'along' if own.along else 'across'} {onto}"
    else:
        text = f"{'round' if own.round else 'box'} on {onto}"
    return f"{text}, {np.degrees(joint.meeting.angle):.0f} degrees"
