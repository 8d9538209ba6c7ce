"""Small frames for tests, written in a few words."""

from collections.abc import Mapping, Sequence

import attrs
import numpy as np

from strength.case.model import Case, Load, Member, Point, Strut, Support
from strength.case.shape import Bare, Rigid, Shape
from strength.frame.layout import lay_out
from strength.frame.response import Response
from strength.frame.solve import solve
from strength.sections.bars import Bars
from strength.vehicle.sheet import Pushes

ALL = (True,) * 6
PINNED = (True, True, True, False, False, False)
SOME = Bare(area=1.0, iy=1.0, iz=1.0, torsion=1.0)  # the shape says only that it is not rigid


@attrs.frozen(kw_only=True)
class Size:
    """Properties of a bar in one consistent set of units."""

    youngs: float
    shear: float
    area: float
    iy: float
    iz: float
    torsion: float
    shear_y: float = np.inf
    shear_z: float = np.inf


TUBE = Size(
    youngs=210000.0,
    shear=81000.0,
    area=144.5,
    iy=9630.0,
    iz=9630.0,
    torsion=19260.0,
    shear_y=77.1,
    shear_z=77.1,
)
PLATE = Size(
    youngs=70000.0,
    shear=26500.0,
    area=600.0,
    iy=180000.0,
    iz=5000.0,
    torsion=18200.0,
    shear_y=509.8,
    shear_z=509.8,
)


def member(name: str, start: str, end: str, shape: Shape = SOME, **rest: object) -> Member:
    """A member; `rest` are fields of `Member`."""
    return attrs.evolve(Member(name=name, start=start, end=end, shape=shape), **rest)


def rigid(name: str, start: str, end: str, **rest: object) -> Member:
    """A rigid member."""
    return member(name, start, end, Rigid(), **rest)


def case_of(
    points: Mapping[str, Sequence[float]],
    members: Sequence[Member],
    supports: Mapping[str, Sequence[bool]] | None = None,
    struts: Sequence[Strut] = (),
    **rest: object,
) -> Case:
    """A case from named points, members and holds."""
    case = Case(
        title="frame",
        points=tuple(
            Point(name=name, at=(float(x), float(y), float(z))) for name, (x, y, z) in points.items()
        ),
        members=tuple(members),
        struts=tuple(struts),
        supports=tuple(
            Support(name=at, at=at, hold=tuple(bool(held) for held in hold))
            for at, hold in (supports or {}).items()
        ),
    )
    return attrs.evolve(case, **rest)


def bars_of(case: Case, *designs: Size | Mapping[str, Size]) -> Bars:
    """Bars of one or several designs; a design is one size for all or sizes by name (default TUBE)."""
    parts = [*case.members, *case.struts]
    rows = []
    for design in designs or (TUBE,):
        sizes = [design if isinstance(design, Size) else design.get(part.name, TUBE) for part in parts]
        rows.append([attrs.astuple(size) for size in sizes])
    data = np.array(rows, dtype=float).reshape(len(rows), len(parts), 8)
    nothing = [isinstance(part.shape, Rigid) or part.shape is None for part in parts]
    data[:, nothing] = np.nan
    youngs, shear, area, iy, iz, torsion, shear_y, shear_z = np.moveaxis(data, -1, 0)
    blank = np.full_like(area, np.nan)
    return Bars(
        names=tuple(part.name for part in parts),
        shapes=tuple(part.shape for part in parts),
        metals=(None,) * len(parts),
        member_count=len(case.members),
        area=area,
        iy=iy,
        iz=iz,
        torsion=torsion,
        shear_y=shear_y,
        shear_z=shear_z,
        modulus_y=blank,
        modulus_z=blank,
        depth=blank,
        width=blank,
        wall=blank,
        youngs=youngs,
        shear=shear,
        yield_=blank,
        ultimate=blank,
        yield_welded=blank,
        ultimate_welded=blank,
        elongation=blank,
        density=blank[0],
    )


def pushes_of(case: Case, *loads: Mapping[str, Sequence[float]], gauge: np.ndarray | None = None) -> Pushes:
    """Loads, each point name -> force and moment (six numbers, or three for a force alone)."""
    number = {point.name: n for n, point in enumerate(case.points)}
    forces = np.zeros((len(loads), len(case.points), 6))
    for n, load in enumerate(loads):
        for name, push in load.items():
            forces[n, number[name], : len(push)] = push
    return Pushes(forces=forces, gauge=gauge, notes=((),) * len(loads))


def named(case: Case, *names: str) -> Case:
    """The case with its loads named."""
    return attrs.evolve(case, loads=tuple(Load(name=name) for name in names))


def even_gauge(case: Case) -> np.ndarray:
    """Mean movement and mean turn of all points are zero: as of equal masses at the points."""
    places = np.array([point.at for point in case.points])
    out = np.zeros((6, len(places), 6))
    for k, axis in enumerate(np.eye(3)):
        out[k, :, k] = 1.0
        out[3 + k, :, :3] = np.cross(axis, places)
    return out


def solved(case: Case, bars: Bars, pushes: Pushes) -> Response:
    """Lay out and solve."""
    return solve(case, lay_out(case), bars, pushes)


def at(case: Case, response: Response, name: str, load: int = 0, design: int = 0) -> np.ndarray:
    """Displacement (6,) of a point by name."""
    return response.displacements[design, load, [point.name for point in case.points].index(name)]
