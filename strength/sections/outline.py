"""Outlines: properties and stresses from a finite-element mesh by sectionproperties.

Meshing is slow, so what it gave is kept, in memory and in the user's cache folder.
"""

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Outline
from strength.sections.outline_cache import recalled, remembered
from strength.sections.properties import Properties
from strength.sections.stress import StressMatrix
from strength.values import frozen

if TYPE_CHECKING:
    from sectionproperties.analysis.section import Section

Array = NDArray[np.float64]

FIGURES = (
    "area",
    "iy",
    "iz",
    "iyz",
    "torsion",
    "shear_y",
    "shear_z",
    "thickness",
    "centre_y",
    "centre_z",
    "shear_mix",
)
CENTRED = 0.01  # shear centre off the centroid by more than this part of the depth: out of range (own choice)
ELEMENTS = (600, 6000)  # triangles at least and at most
ACROSS = 3.0  # triangles across the wall, where that is not too many


@frozen(kw_only=True, eq=False)
class Meshed:
    """What a mesh gives: figures of the whole section and stresses of unit forces at its points.

    y, z: (points,) from the centroid [mm]. unit: (3, points, 6): sigma, tau along y_m and along z_m
    [MPa] of 1 N of N, Vy, Vz and 1 N*mm of T, My, Mz. figures: as named by FIGURES, mm.
    """

    y: Array
    z: Array
    unit: Array
    figures: Array

    def figure(self, name: str) -> float:
        """One figure: mm, mm^2, mm^4; `centre_y`, `centre_z` from the centroid to the shear centre.

        `shear_mix` [1/mm^2] is the part of the shear compliance that couples Vy and Vz.
        """
        return float(self.figures[FIGURES.index(name)])

    @property
    def depth(self) -> float:
        """Outer depth, along z_m [mm]."""
        return float(np.ptp(self.z))

    @property
    def width(self) -> float:
        """Outer width, along y_m [mm]."""
        return float(np.ptp(self.y))

    @property
    def is_centred(self) -> bool:
        """Whether the shear centre lies within 1 % of the depth of the centroid."""
        off = np.hypot(self.figure("centre_y"), self.figure("centre_z"))
        return bool(off <= CENTRED * self.depth)


@lru_cache(maxsize=64)
def meshed(shape: Outline) -> Meshed:
    """Mesh figures of an outline; the first time takes a second, later ones nothing.

    Transverse shear with v = 0, which loses nothing of its resultant; warping torsion is left out.
    """
    kept = recalled(shape)
    if kept is None:
        kept = _mesh(shape)
        remembered(shape, kept)
    return Meshed(**kept)


def outline_properties(shape: Outline) -> Properties:
    """Properties of an outline as arrays of one design."""
    mesh = meshed(shape)
    area = mesh.figure("area")
    values = {
        "area": area,
        "iy": mesh.figure("iy"),
        "iz": mesh.figure("iz"),
        "torsion": mesh.figure("torsion"),
        "kappa_y": mesh.figure("shear_y") / area,
        "kappa_z": mesh.figure("shear_z") / area,
        "modulus_y": mesh.figure("iy") / float(np.abs(mesh.z).max()),
        "modulus_z": mesh.figure("iz") / float(np.abs(mesh.y).max()),
        "depth": mesh.depth,
        "width": mesh.width,
        "wall": mesh.figure("thickness"),
    }
    return Properties(**{name: np.array([value]) for name, value in values.items()})


def outline_matrix(shape: Outline) -> StressMatrix:
    """Stress matrix of an outline at the points of its mesh, Iyz kept."""
    unit = meshed(shape).unit[:, None]
    return StressMatrix(
        scale=np.ones((1, 6)),
        sigma=unit[0],
        tau_1=unit[1],
        tau_2=unit[2],
        neighbours=np.empty((0, 2, unit.shape[2]), dtype=np.intp),
    )


def _mesh(shape: Outline) -> dict[str, Array]:
    from sectionproperties.analysis.section import Section
    from sectionproperties.pre.geometry import Geometry
    from shapely import Polygon, maximum_inscribed_circle

    polygon = Polygon(shape.corners, shape.holes)
    thickness = 2.0 * float(maximum_inscribed_circle(polygon).length)
    # an equilateral triangle of side s has 0.43 s^2
    wanted = 0.43 * (thickness / ACROSS) ** 2
    least, most = (polygon.area / count for count in reversed(ELEMENTS))
    geometry = Geometry(polygon)
    geometry.create_mesh([min(max(wanted, least), most)])
    section = Section(geometry)
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    return _gathered(section, thickness)


def _gathered(section: "Section", thickness: float) -> dict[str, Array]:
    centre = np.array(section.get_c())
    points = np.asarray(section.mesh_nodes, dtype=np.float64) - centre
    # sectionproperties: x is y_m, y is z_m; its shear and axial forces and moments keep their meaning
    found = section.calculate_stress(n=1.0, vx=1.0, vy=1.0, mxx=1.0, myy=1.0, mzz=1.0).get_stress()[0]
    unit = np.zeros((3, points.shape[0], 6))
    unit[0, :, 0] = found["sig_zz_n"]
    unit[0, :, 4] = found["sig_zz_mxx"]
    unit[0, :, 5] = found["sig_zz_myy"]
    for row, axis in ((1, "x"), (2, "y")):
        unit[row, :, 1] = found[f"sig_z{axis}_vx"]
        unit[row, :, 2] = found[f"sig_z{axis}_vy"]
        unit[row, :, 3] = found[f"sig_z{axis}_mzz"]
    iy, iz, iyz = section.get_ic()
    shear_y, shear_z = section.get_as()
    shear_centre = np.array(section.get_sc()) - centre
    shear_mix = section.section_props.a_sxy
    mix = 0.0 if shear_mix is None else 1.0 / float(shear_mix)
    figures = (section.get_area(), iy, iz, iyz, section.get_j(), shear_y, shear_z, thickness)
    figures = (*figures, *shear_centre, mix)
    return {
        "y": points[:, 0],
        "z": points[:, 1],
        "unit": unit,
        "figures": np.array([float(figure) for figure in figures]),
    }
