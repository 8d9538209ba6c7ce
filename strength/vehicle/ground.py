"""What stands on the road: contact points of the wheels, the hitch, and the masses above them."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Mass, Vector
from strength.errors import CaseError
from strength.values import frozen

Array = NDArray[np.float64]

LEVEL_TOLERANCE = 1.0  # mm, own choice: the tyres' contacts count as one height
MOST_WHEELS = 12  # every set of lifted wheels is looked at


@frozen(kw_only=True, eq=False)
class Ground:
    """Contacts in one load: the wheels on the ground in case order, then the hitch if there is one.

    x, y: (contacts,) [mm], body axes. level: height of the contacts, body z [mm]. tow_height: of
    the hitch above them [mm].
    """

    wheels: tuple[str, ...]
    x: Array
    y: Array
    level: float
    tow_height: float = 0.0

    @property
    def has_tow(self) -> bool:
        """Whether the last contact is a hitch."""
        return self.x.size > len(self.wheels)

    def columns(self, side_ratio: float) -> Array:
        """Weight and moments that a unit of Z at each contact gives: (3, contacts).

        Rows 1, x, y. The hitch's Y is `side_ratio` x its Z and acts at its own height, which moves
        the place where its unit counts.
        """
        y = self.y.copy()
        if self.has_tow:
            y[-1] -= self.tow_height * side_ratio
        return np.stack([np.ones_like(self.x), self.x, y])


@frozen(kw_only=True)
class Weights:
    """Sum m [t] and first moments sum m x, sum m y, sum m h [t*mm], h above the contacts."""

    total: float
    x: float
    y: float
    h: float

    def wanted(self, f: Array) -> Array:
        """What the contacts must give against f (..., 3) [mm/s^2]: (..., 3) sum Z, sum x Z, sum y Z.

        sum Z = -sum m f_z; sum x Z = -sum m (x f_z - h f_x); sum y Z = -sum m (y f_z - h f_y), with
        all X and Y at the contacts' height. [N, N*mm]
        """
        fx, fy, fz = f[..., 0], f[..., 1], f[..., 2]
        return np.stack([-self.total * fz, self.h * fx - self.x * fz, self.h * fy - self.y * fz], axis=-1)


def places(case: Case) -> dict[str, Vector]:
    """Place of each point by name [mm]."""
    return {p.name: p.at for p in case.points}


def ground(case: Case, off_ground: Iterable[str] = ()) -> Ground:
    """Contacts without the wheels that are off the ground.

    CaseError: contacts over 1 mm apart in height, two hitches, a hitch on a leaning body, more
    than 12 wheels.
    """
    at = places(case)
    heights = {w.name: at[w.centre][2] - w.radius for w in case.wheels}
    _check(case, heights)
    gone = set(off_ground)
    standing = [w for w in case.wheels if w.name not in gone]
    spots = [at[w.centre] for w in standing] + [at[t.at] for t in case.tows]
    level = float(np.mean(list(heights.values()))) if heights else 0.0
    return Ground(
        wheels=tuple(w.name for w in standing),
        x=np.array([s[0] for s in spots], dtype=float),
        y=np.array([s[1] for s in spots], dtype=float),
        level=level,
        tow_height=at[case.tows[0].at][2] - level if case.tows else 0.0,
    )


def weights(masses: Iterable[Mass], level: float) -> Weights:
    """Sum and first moments of the masses about the contacts' height `level` [mm]."""
    total = x = y = h = 0.0
    for m in masses:
        t = m.mass / 1000.0
        total += t
        x += t * m.at[0]
        y += t * m.at[1]
        h += t * (m.at[2] - level)
    return Weights(total=total, x=x, y=y, h=h)


def _check(case: Case, heights: dict[str, float]) -> None:
    faults: list[tuple[str, str]] = []
    if heights:
        low, high = min(heights, key=lambda n: heights[n]), max(heights, key=lambda n: heights[n])
        apart = heights[high] - heights[low]
        if apart > LEVEL_TOLERANCE * (1.0 + 1e-9):
            path = next((w.path for w in case.wheels if w.name == high), "") or f"wheels.{high}"
            why = (
                f"touches the ground {apart:.4g} mm higher than {low}: all wheels must touch at one "
                f"height within 1 mm; change `centre` or `radius`"
            )
            faults.append((path, why))
    if len(case.wheels) > MOST_WHEELS:
        faults.append(("wheels", f"{len(case.wheels)} wheels: at most {MOST_WHEELS} can be balanced"))
    if len(case.tows) > 1:
        second = case.tows[1]
        faults.append(
            (second.path or f"tows.{second.name}", f"a second hitch beside {case.tows[0].name!r}: leave one")
        )
    if case.tows and case.leaning > 0.0:
        first = case.tows[0]
        faults.append(
            (
                first.path or f"tows.{first.name}",
                "a hitch on a body that leans is not provided for: leave out `leaning` or the tow",
            )
        )
    if faults:
        raise CaseError(faults)
