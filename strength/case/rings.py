"""Loose lines of a drawing, in any order and either way round, joined to closed rings."""

from math import hypot

from strength.case.faults import RefusedError
from strength.case.outline import Ring

JOINED = 0.02  # mm: ends nearer than that are one (own choice)
SHORTEST = 1e-3  # mm between two corners of a ring

Corner = tuple[float, float]
Path = list[Corner]


def join_rings(paths: list[Path]) -> list[Ring]:
    """Closed rings of chains of corners [mm]; raises RefusedError where a line ends in the open.

    >>> join_rings([[(0, 0), (9, 0)], [(0, 5), (0, 0)], [(9, 0), (0, 5)]])
    [((0, 0), (9, 0), (0, 5))]
    """
    rings: list[Path] = []
    loose: list[Path] = []
    for path in paths:
        if _near(path[0], path[-1]):
            rings.append(path)
        elif not any(_same(path, other) for other in loose):
            loose.append(path)
    while loose:
        chain = list(loose.pop(0))
        while not _near(chain[0], chain[-1]):
            follows = [path for path in loose if _near(path[0], chain[-1]) or _near(path[-1], chain[-1])]
            if not follows:
                raise RefusedError(_open(chain[-1], loose, chain))
            if len(follows) > 1:
                raise RefusedError(
                    f"three lines or more meet at {_at(chain[-1])}: leave one outline and its holes"
                )
            path = follows[0]
            loose.remove(path)
            chain += path[1:] if _near(path[0], chain[-1]) else path[-2::-1]
        rings.append(chain)
    found = [ring for path in rings if len(ring := _cleaned(path)) > 2]
    if not found:
        raise RefusedError("holds no closed outline: draw it with lines, arcs or circles in the model space")
    return found


def _open(end: Corner, loose: list[Path], chain: Path) -> str:
    ends = [corner for path in loose for corner in (path[0], path[-1])]
    gaps = [(hypot(corner[0] - end[0], corner[1] - end[1]), corner) for corner in (*ends, chain[0])]
    gap, corner = min(gaps)
    return (
        f"the outline is open: a line ends at {_at(end)}, and the next end, at {_at(corner)}, "
        f"is {gap:.3g} mm away; close it in the drawing"
    )


def _at(corner: Corner) -> str:
    return f"({corner[0]:.6g}, {corner[1]:.6g}) mm"


def _near(one: Corner, other: Corner) -> bool:
    return abs(one[0] - other[0]) < JOINED and abs(one[1] - other[1]) < JOINED


def _same(one: Path, other: Path) -> bool:
    """Whether a line is drawn twice."""
    if len(one) != len(other):
        return False
    return any(all(map(_near, one, way)) for way in (other, other[::-1]))


def _cleaned(path: Path) -> Ring:
    """A ring without its last corner, and without corners that stand on the one before."""
    ring: Path = []
    for corner in path:
        if not ring or hypot(corner[0] - ring[-1][0], corner[1] - ring[-1][1]) > SHORTEST:
            ring.append(corner)
    while len(ring) > 1 and _near(ring[0], ring[-1]):
        ring.pop()
    return tuple(ring)
