"""Warnings about studs and rod ends: threads in aluminium, shanks that bend."""

from collections.abc import Iterator

import numpy as np

from strength.case.model import Member, Strut, Warned
from strength.checks.context import Context
from strength.checks.guards_bolts import PRACTICE
from strength.checks.studs import stud_effects
from strength.joints.stud import shank_stress

DEEP = 1.5  # thread diameters in aluminium
TOLD = 0.01  # N*m: a smaller end moment is not told
BENT = 0.10  # of the yield strength: less bending of a rod end is not told (own choice)


def shallow_thread(context: Context) -> Iterator[Warned]:
    """Threads in aluminium engaged by less than 1.5 diameters."""
    for effect in stud_effects(context):
        d, engaged = effect.thread.diameter, effect.stud.engaged
        if effect.into.metal.kind == "aluminium" and engaged < DEEP * d * (1.0 - 1e-9):
            text = f"{engaged:g} mm of {effect.thread.name} in aluminium, under {DEEP:g} d ({DEEP * d:g} mm)"
            yield Warned(part=effect.stud.name, text=f"{text} {PRACTICE}")


def softer_beside(context: Context) -> Iterator[Warned]:
    """Studs taken to screw into their own part's metal where aluminium meets their end."""
    case, bars = context.case, context.bars
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    for effect in stud_effects(context):
        stud, own = effect.stud, effect.end.bar
        if stud.into or effect.into.metal.kind == "aluminium":
            continue
        point = parts[own].start if stud.end == "from" else parts[own].end
        for number, (part, metal) in enumerate(zip(parts, bars.metals, strict=True)):
            if number == own or metal is None or metal.kind != "aluminium":
                continue
            if point in (part.start, part.end, *getattr(part, "via", ())):
                text = (
                    f"its thread is taken to be in its own {effect.into.metal.name}, but {part.name} "
                    f"of softer {metal.name} meets it: if it screws into that, write "
                    f'into = {{material = "{metal.name}"}}'
                )
                yield Warned(part=stud.name, text=text)
                break


def bent_rod_end(context: Context) -> Iterator[Warned]:
    """Rod ends in line with their part whose shank is bent by over a tenth of its yield strength.

    A stud without reach has no ball: it is the threaded end of an axle or a bar, made to be bent.
    """
    for effect in stud_effects(context):
        stud, own = effect.stud, effect.thread
        if not effect.in_line or stud.reach <= 0.0:
            continue
        stress = shank_stress(effect.across, 0.0, effect.bending, stud.reach, own.root, own.stress_area)
        design, load = np.unravel_index(int(np.argmax(stress)), stress.shape)
        most = float(stress[design, load])
        if most > BENT * effect.grade.yield_:
            moment = float(effect.bending[design, load]) / 1000.0
            told = f"{effect.across[design, load]:.0f} N across its shank, {stud.reach:g} mm from the face,"
            if moment > TOLD:
                told += f" and {moment:.3g} N*m"
            text = (
                f"it carries bending: {told} bends it to {most:.0f} MPa in "
                f"{context.load_names[load]!r}; a rod end is for pull and push along its shank {PRACTICE}"
            )
            yield Warned(part=stud.name, text=text)
