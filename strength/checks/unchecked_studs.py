"""What of studs no check looks at."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import NotChecked
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE, figure
from strength.checks.studs import StudEffect, stud_effects
from strength.joints.end_force import size
from strength.library.screws import is_rated, rod_end_rating

Array = NDArray[np.float64]


def unchecked_studs(context: Context) -> Iterator[NotChecked]:
    """A moment that turns a stud in its thread, and ratings that are not given."""
    for effect in stud_effects(context):
        name = effect.stud.name
        most = float(size(effect.end.moment).max(initial=0.0))
        arm = effect.stud.size.diameter
        least = LITTLE * (most + float(size(effect.end.force).max(initial=0.0)) * arm)
        twist = float(effect.twisting.max(initial=0.0))
        if twist > least:
            told = figure(twist / 1000.0)
            why = f"a moment about its own axis, up to {told} N*m: what keeps it from turning?"
            yield NotChecked(part=name, kind="thread-strip", why=why)
        if rating := _rating(effect):
            yield NotChecked(part=name, kind="rod-end", why=rating)


def _rating(effect: StudEffect) -> str:
    """What is missing of the maker's ratings; empty: nothing."""
    stud = effect.stud
    if stud.rating_radial is not None and stud.rating_axial is not None:
        return ""
    if stud.rating_radial is not None:
        return "the maker's axial rating is not given: only the radial one counts"
    if stud.rating_axial is not None:
        return "the maker's radial rating is not given"
    text = "the maker's static ratings are not given"
    if not is_rated(stud.size.text):
        return text
    held = rod_end_rating(stud.size.text)
    return f"{text}; cautious figures for {held.size}: {held.radial / 1000.0:g} kN radial (own choice)"
