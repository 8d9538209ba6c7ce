"""Force per length along a weld's line from the force that goes through its plane."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.case.model import Weld
from strength.errors import CaseError
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]

SINGULAR = 1e-9  # of the greatest principal value of the spread: a direction without stiffness
REFUSED = 1e-6  # of the moments about: a moment about such a direction counts as one


@frozen(kw_only=True, eq=False)
class Pull:
    """What goes through a line: q at arm r from its centroid is direct + spin x r.

    both: direct [N/mm] and spin [N/mm^2] side by side, (designs, loads, 6). Member axes.
    """

    both: Array

    @property
    def direct(self) -> Array:
        """Force per length at the centroid (designs, loads, 3) [N/mm]."""
        return self.both[..., :3]

    @property
    def spin(self) -> Array:
        """(designs, loads, 3) [N/mm^2]."""
        return self.both[..., 3:]

    def at(self, arm: Array) -> Array:
        """Force per length [N/mm] at arms (designs, loads, ..., 3) [mm]."""
        shape = (*self.spin.shape[:2], *([1] * (arm.ndim - 3)), 3)
        found: Array = self.direct.reshape(shape) + cross(self.spin.reshape(shape), arm)
        return found


def pull(line: WeldLine, forces: Array, welds: Sequence[Weld], loads: tuple[str, ...]) -> Pull:
    """Force and moment through the middle of the weld plane to force per length along the line.

    forces: (rows, loads, 6), N Vy Vz T My Mz there [N, N*mm], with the line's rows, those of `welds`
    in equal shares; for lines alike in all designs (welds, designs x loads, 6). The moment is moved to the
    line's centroid; S w = M, with S the line's spread: uniform direct shear, polar torsion and unsymmetric
    bending in one.
    Source: the line method of Blodgett, Design of Welded Structures, and Shigley, Mechanical
    Engineering Design, chapter 9, written for a line in space.
    Raises CaseError naming weld and load for a moment that the line cannot carry.
    """
    force, moment = forces[..., :3], forces[..., 3:]
    moment = moment - cross(line.centroid[:, None], force)
    size, axes = np.linalg.eigh((line.spread + np.swapaxes(line.spread, 1, 2)) / 2.0)
    weak = size <= SINGULAR * size[:, -1:]
    if weak.any():
        about = moment @ axes
        scale = np.linalg.norm(moment, axis=-1) + np.linalg.norm(force, axis=-1) * line.length[:, None]
        left = np.max(np.abs(about) * weak[:, None], axis=-1)
        _refuse(left, REFUSED * scale.max(axis=1), welds, loads)
    give = np.where(weak, 0.0, 1.0 / np.where(weak, 1.0, size))
    inverse = (axes * give[:, None]) @ np.swapaxes(axes, 1, 2)
    both = np.empty(forces.shape)
    np.divide(force, line.length[:, None, None], out=both[..., :3])
    both[..., 3:] = moment @ inverse
    return Pull(both=both)


def _refuse(left: Array, limit: Array, welds: Sequence[Weld], loads: tuple[str, ...]) -> None:
    """Raise for every weld with a moment `left` (rows, loads) over its limit (rows,)."""
    each = left.shape[0] // len(welds)
    faults = []
    for n, weld in enumerate(welds):
        own = slice(n * each, (n + 1) * each)
        if np.any(left[own] > limit[own, None]):
            load = loads[int(np.argmax(left[own].max(axis=0))) % len(loads)]
            why = (
                f"{weld.name}: its line cannot carry the moment about itself in load {load!r}; "
                "weld on two sides or all round"
            )
            faults.append((weld.path or weld.name, why))
    if faults:
        raise CaseError(faults)
