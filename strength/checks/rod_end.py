"""`rod-end`: the force in a rod end or ball joint against its maker's static ratings."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.studs import StudEffect, stud_effects
from strength.checks.verdict import Verdict
from strength.joints.end_force import along_and_across, size
from strength.joints.stud import RATING_FACTOR
from strength.joints.tapped import ALONG

Array = NDArray[np.float64]

SOURCE = "maker's static rating over 5: makers' practice for loads of alternating direction"
BOTH = (
    "no bolt through its eye is given, so the force along its shank is taken as axial or as radial, "
    "whichever is worse: write that bolt"
)


def rod_end(context: Context) -> Iterator[Verdict]:
    """F_r/(radial/5) + F_a/(axial/5), without load factor, for studs with a rating.

    A bolt at the same end, across the stud, is the pin through the eye: axial is along it. Else axial
    is along the stud's `axis`, as a ball joint has it; with that left out, a rod end in line with its
    part whose pull may be radial, the worse of both counts.
    """
    for effect in stud_effects(context):
        stud = effect.stud
        if stud.rating_radial is None:
            continue
        eye = eye_axis(context, effect)
        note = ""
        if eye is not None:
            along, across = along_and_across(effect.end.force, eye)
            use = _use(effect, np.abs(along), size(across))
            note = "axial along the bolt through its eye"
        else:
            use = _use(effect, effect.along, effect.across)
            if stud.axis is None:
                use = np.maximum(use, _use(effect, effect.across, effect.along))
                note = BOTH
        yield effect.verdict(context, "rod-end", "1", "parts", SOURCE, use, np.ones_like(use), note=note)


def eye_axis(context: Context, effect: StudEffect) -> Array | None:
    """Direction of the bolt through a rod end's eye: one at the same end, across the stud."""
    stud = effect.stud
    for bolt in context.case.bolts:
        if (bolt.member, bolt.end) == (stud.member, stud.end):
            axis = np.array(bolt.axis)
            if abs(axis @ effect.axis) < ALONG:
                return axis
    return None


def _use(effect: StudEffect, axial: Array, radial: Array) -> Array:
    """The interaction; without an axial rating only the radial part of it."""
    stud = effect.stud
    found = np.zeros_like(radial)
    if stud.rating_radial is not None:
        found = found + radial * RATING_FACTOR / stud.rating_radial
    if stud.rating_axial is not None:
        found = found + axial * RATING_FACTOR / stud.rating_axial
    return found
