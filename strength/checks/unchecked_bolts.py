"""What of bolt joints no check looks at."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import NotChecked
from strength.checks.bolt_bending import is_bent
from strength.checks.bolts import BoltEffect, bolt_effects
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE, figure
from strength.joints.end_force import size

Array = NDArray[np.float64]


def unchecked_bolts(context: Context) -> Iterator[NotChecked]:
    """Moments nothing carries, pins' axial force, plates that are not given."""
    for effect in bolt_effects(context):
        greatest = _most(effect.end.force)
        for kind, why in (*_moments(effect, greatest), *_pull(effect, greatest), *_plates(effect)):
            yield NotChecked(part=effect.bolt.name, kind=kind, why=why)


def _moments(effect: BoltEffect, greatest: float) -> Iterator[tuple[str, str]]:
    """greatest: force on the joint [N]."""
    forces = effect.forces
    arm = max([effect.fastener.diameter, *(abs(x) for at in effect.bolt.group for x in at)])
    little = LITTLE * (_most(effect.end.moment) + greatest * arm)
    if about := _told(forces.about_axis, little):
        yield "bolt-shear", f"a moment about its own axis, up to {about}: what keeps it from turning?"
    if about := _told(forces.about_line, little):
        yield (
            "bolt-tension",
            f"a moment about the line in which its bolts stand, up to {about}: they cannot carry it",
        )
    bending = _told(forces.bending, little)
    if bending and effect.two_planes and not effect.plates:
        yield "bolt-shear", f"a moment across it, up to {bending}: the plates that carry it are not given"
    if bending and not effect.two_planes and not is_bent(effect):
        yield "bolt-tension", f"a moment across it, up to {bending}, that pries at the bolt and its plates"


def _pull(effect: BoltEffect, greatest: float) -> Iterator[tuple[str, str]]:
    """greatest: force on the joint [N]."""
    along = float(effect.forces.along.max(initial=0.0))
    if effect.fastener.is_pin and along > LITTLE * greatest:
        yield "bolt-tension", f"a force along the pin, up to {figure(along)} N: what keeps the pin in?"
    elif not effect.fastener.is_pin and effect.fastener.tension is None:
        yield "bolt-tension", f"no neck is known for {effect.bolt.size.text!r}: ISO 7379 does not list it"


def _plates(effect: BoltEffect) -> Iterator[tuple[str, str]]:
    bent = " and bending of the bolt" if is_bent(effect) else ""
    if not effect.plates:
        pulled = "" if effect.fastener.is_pin else ", pull-through"
        yield "bearing", f"its plates are not given: bearing, tear-out, net section{pulled}{bent}"
    elif len(effect.plates) == 1:
        yield "bearing", "what holds the carried plate is not given: bearing, tear-out and net section there"


def _most(vectors: Array) -> float:
    return float(size(vectors).max(initial=0.0))


def _told(moment: Array, little: float) -> str:
    """The greatest of moments (designs, loads[, bolts]) in words; empty where it is only rounding."""
    most = float(moment.max(initial=0.0))
    return f"{figure(most / 1000.0)} N*m" if most > little else ""
