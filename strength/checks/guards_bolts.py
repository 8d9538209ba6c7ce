"""Warnings about how bolts are used: edges, single shear, threads, steel in aluminium, uneven groups."""

from collections.abc import Iterator

import numpy as np

from strength.case.model import Warned
from strength.checks.bolts import bolt_effects
from strength.checks.context import Context
from strength.checks.studs import stud_effects
from strength.checks.tear_out import tear_out
from strength.joints.end_force import along_and_across, size

PRACTICE = "(common practice, no source)"
EDGES = (  # edge in bolt diameters, least use of the tear-out strength at which it is asked for, why
    (1.5, 0.0, "the least for a plate cut by machine"),
    (1.7, 0.0, "the least for a plate cut by hand"),
    (2.0, 0.5, "wanted where the hole is over half used"),
)
CROWDED = 2.2  # hole diameters between bolts
STEP = 1.0  # mm along the axis that bolts of a group may stand apart; and a share of their spread across it
SLOPE = 0.2
ALUMINIUM = f"steel in aluminium: salt and wet eat the aluminium; isolate it with paint or grease {PRACTICE}"


def edges(context: Context) -> Iterator[Warned]:
    """Edge distances under 1.5 d, 1.7 d cut by hand, 2 d where the hole is over half used."""
    used = {verdict.part: float(verdict.utilisation.max()) for verdict in tear_out(context)}
    for effect in bolt_effects(context):
        d = effect.fastener.diameter
        for plate in effect.plates:
            edge = plate.entry.edge
            for times, least, why in EDGES:
                if edge < times * d * (1.0 - 1e-9) and used[effect.bolt.name] >= least:
                    text = f"{plate.word}: {edge:g} mm to the edge, under {times:g} d of its {d:g} mm bolt"
                    yield Warned(part=effect.bolt.name, text=f"{text}, {why} {PRACTICE}")
                    break


def single_shear(context: Context) -> Iterator[Warned]:
    """One bolt alone in one plane."""
    for bolt in context.case.bolts:
        if bolt.shear_planes == 1 and not bolt.group:
            text = f"one bolt in single shear bends and works loose: hold it on both sides {PRACTICE}"
            yield Warned(part=bolt.name, text=text)


def thread_in_shear(context: Context) -> Iterator[Warned]:
    """A thread in the shear plane."""
    for bolt in context.case.bolts:
        if bolt.size.kind != "pin" and bolt.thread_in_shear:
            text = (
                "its thread lies in the shear plane: take a bolt whose plain shank reaches through, and say "
                f"thread_in_shear = false {PRACTICE}"
            )
            yield Warned(part=bolt.name, text=text)


def steel_in_aluminium(context: Context) -> Iterator[Warned]:
    """Bolts through aluminium plates, studs in aluminium."""
    for effect in bolt_effects(context):
        if any(plate.metal.kind == "aluminium" for plate in effect.plates):
            yield Warned(part=effect.bolt.name, text=ALUMINIUM)
    for stud in stud_effects(context):
        if stud.into.metal.kind == "aluminium":
            yield Warned(part=stud.stud.name, text=ALUMINIUM)


def crowded_group(context: Context) -> Iterator[Warned]:
    """Bolts of a group nearer to each other than 2.2 hole diameters."""
    for bolt in context.case.bolts:
        if not bolt.group:
            continue
        hole = max((plate.hole for plate in bolt.plates), default=bolt.size.diameter)
        _, across = along_and_across(np.array(bolt.group), np.array(bolt.axis))
        apart = size(across[:, None] - across[None])
        least = float(apart[np.triu_indices(len(across), 1)].min())
        if least < CROWDED * hole * (1.0 - 1e-9):
            text = (
                f"bolts of its group stand {least:.3g} mm apart, under {CROWDED:g} holes of {hole:g} mm: the "
                "metal between them is less than the checks take for granted (EN 1993-1-8 Table 3.3, from "
                "memory)"
            )
            yield Warned(part=bolt.name, text=text)


def uneven_group(context: Context) -> Iterator[Warned]:
    """Bolts of a group that do not stand in one plane across their axis."""
    for bolt in context.case.bolts:
        if not bolt.group:
            continue
        along, across = along_and_across(np.array(bolt.group), np.array(bolt.axis))
        spread = 2.0 * float(size(across - across.mean(axis=0)).max())
        if float(np.ptp(along)) > max(STEP, SLOPE * spread):
            text = "its bolts stand at different places along their axis: the steps are left out (own choice)"
            yield Warned(part=bolt.name, text=text)
