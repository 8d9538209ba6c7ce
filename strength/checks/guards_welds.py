"""Warnings about welds on thin walls, too large for their wall, and beside quenched bolts."""

from collections.abc import Iterator

from strength.case.model import Bolt, Stud, Warned, Weld
from strength.checks.context import Context
from strength.checks.guards_bolts import PRACTICE
from strength.checks.guards_weld_rules import joined, thinner
from strength.errors import StrengthError
from strength.library.bolt import find_bolt_class

LARGE = 2.0  # times the thinnest wall
THIN = 1.5  # mm: thinnest wall for MIG in a home workshop


def large_leg(context: Context) -> Iterator[Warned]:
    """Legs over twice the thinnest wall joined: the wall gives way first, and its heat spoils it."""
    for weld in context.case.welds:
        thinnest = thinner(joined(context, weld))
        if weld.leg > LARGE * thinnest * (1.0 + 1e-9):
            text = (
                f"a leg of {weld.leg:g} mm on {thinnest:.3g} mm of wall: over {LARGE:g} times the wall a "
                f"fillet adds heat, not strength {PRACTICE}"
            )
            yield Warned(part=weld.name, text=text)


def thin_wall_by_mig(context: Context) -> Iterator[Warned]:
    """MIG welds on walls under 1.5 mm."""
    for weld in context.case.welds:
        thinnest = thinner(joined(context, weld))
        if weld.process == "mig" and thinnest < THIN - 1e-9:
            text = f"MIG on {thinnest:.3g} mm: it burns through under {THIN:g} mm; take TIG or more wall"
            yield Warned(part=weld.name, text=f"{text} {PRACTICE}")


def quenched_bolt(context: Context) -> Iterator[Warned]:
    """Bolts and studs of 8.8 and up with a weld on their part within one diameter of them."""
    at_end: dict[tuple[str, str], list[Weld]] = {}
    for weld in context.case.welds:
        at_end.setdefault((weld.member, weld.end), []).append(weld)
    joints: tuple[Bolt | Stud, ...] = (*context.case.bolts, *context.case.studs)
    for joint in joints:
        near = [
            weld.name
            for weld in at_end.get((joint.member, joint.end), ())
            if weld.inset < joint.size.diameter * (1.0 - 1e-9)
        ]
        if near and _is_quenched(joint):
            text = (
                f"{near[0]} lies within one diameter of it: a quenched bolt goes soft or cracks beside a "
                f"weld; never weld it, and never weld with it in place {PRACTICE}"
            )
            yield Warned(part=joint.name, text=text)


def _is_quenched(joint: Bolt | Stud) -> bool:
    try:
        return find_bolt_class(joint.grade, joint.size.diameter).quenched
    except StrengthError:  # told where the joint is checked
        return False


def line_off_the_part(context: Context) -> Iterator[Warned]:
    """Typed weld lines that run outside the section by over a leg: what is not there holds nothing."""
    bars = context.bars
    across = zip(bars.width[0].tolist(), bars.depth[0].tolist(), strict=True)
    sizes = dict(zip(bars.names, across, strict=True))
    for weld in context.case.welds:
        half_y, half_z = (size / 2.0 + weld.leg for size in sizes[weld.member])
        ends = [end for y1, z1, y2, z2 in weld.lines for end in ((y1, z1), (y2, z2))]
        far = next((end for end in ends if abs(end[0]) > half_y or abs(end[1]) > half_z), None)
        if far is not None:
            yield Warned(
                part=weld.name,
                text=f"a line of it runs to {far[0]:g} {far[1]:g} mm, outside {weld.member}: a weld that is "
                "not on the part makes it look stronger; is there a slip in `lines`?",
            )
