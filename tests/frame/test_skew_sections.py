"""A section whose principal axes lie askew: unsymmetric bending in closed form.

Tip of a cantilever by curvature, any text on strength of materials (Megson, Aircraft Structures, unsymmetric
bending; from memory): with My, Mz about the member's axes,
    E v'' = (Mz Iy + My Iyz) / (Iy Iz - Iyz^2),   E w'' = -(My Iz + Mz Iyz) / (Iy Iz - Iyz^2).
"""

from collections.abc import Iterator
from pathlib import Path

import attrs
import numpy as np
import pytest

from strength.case.model import Case
from strength.case.shape import Bare, Outline
from strength.frame.buckling import critical_multiplier
from strength.frame.layout import lay_out
from strength.frame.solve import solve
from strength.library import find_metal
from strength.sections import Bars, measure
from strength.sections.outline import meshed
from strength.sections.principal import principal_turn
from tests.frame.building import ALL, case_of, member, pushes_of

# an angle of 30 x 50 x 4 with its corner at the origin, as drawn by hand
ANGLE = Outline(((0.0, 0.0), (30.0, 0.0), (30.0, 4.0), (4.0, 4.0), (4.0, 50.0), (0.0, 50.0)))
STEEL = find_metal("S235JR")
LONG = 800.0


@pytest.fixture(autouse=True)
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Meshes of this file in a folder of its own."""
    with pytest.MonkeyPatch.context() as patch:
        folder = tmp_path_factory.getbasetemp() / "meshes"
        patch.setenv("XDG_CACHE_HOME", str(folder))
        yield folder


def by_hand() -> tuple[float, float, float, float]:
    """A, Iy, Iz, Iyz [mm^2, mm^4] of the angle from its two rectangles."""
    parts = ((30.0, 4.0, 15.0, 2.0), (4.0, 46.0, 2.0, 27.0))  # width, depth, centre y, z
    area = sum(b * h for b, h, _, _ in parts)
    cy = sum(b * h * y for b, h, y, _ in parts) / area
    cz = sum(b * h * z for b, h, _, z in parts) / area
    iy = sum(b * h**3 / 12.0 + b * h * (z - cz) ** 2 for b, h, _, z in parts)
    iz = sum(h * b**3 / 12.0 + b * h * (y - cy) ** 2 for b, h, y, _ in parts)
    iyz = sum(b * h * (y - cy) * (z - cz) for b, h, y, z in parts)
    return area, iy, iz, iyz


def cantilever(direction: np.ndarray, up: np.ndarray) -> tuple[Case, Bars]:
    """One arm held at its foot, Euler-Bernoulli so that the closed form holds to the digit."""
    foot = np.array([40.0, -70.0, 110.0])
    case = case_of(
        {"foot": foot, "middle": foot + 0.3 * LONG * direction, "tip": foot + LONG * direction},
        [member("arm", "foot", "tip", ANGLE, material="S235JR", up=tuple(up), via=("middle",))],
        {"foot": ALL},
    )
    case = attrs.evolve(case, metals={"S235JR": STEEL}, basis=attrs.evolve(case.basis, shear_flexible=False))
    return case, measure(case)


DIRECTION = np.array([2.0, 3.0, 6.0]) / 7.0
UP = np.array([0.3, -0.2, 1.0])


@pytest.mark.parametrize("push", [(0.0, 130.0, 0.0), (0.0, 0.0, -210.0), (0.0, 90.0, 310.0)])
def test_cantilever_bends_askew(push: tuple[float, float, float]) -> None:
    """A force along one axis moves the tip along both."""
    case, bars = cantilever(DIRECTION, UP)
    layout = lay_out(case)
    axes = layout.axes[0]
    found = solve(case, layout, bars, pushes_of(case, {"tip": np.array(push) @ axes}))
    _, iy, iz, iyz = by_hand()
    _, vy, vz = push
    # at x from the foot: My = -Vz (L - x), Mz = Vy (L - x); twice integrated, (L - x) gives L^3/3
    share = LONG**3 / 3.0 / (STEEL.modulus * (iy * iz - iyz**2))
    expected = np.array([0.0, (vy * iy - vz * iyz) * share, (vz * iz - vy * iyz) * share])
    tip = axes @ found.displacements[0, 0, 2, :3]
    assert tip == pytest.approx(expected, rel=1e-9, abs=1e-9 * float(np.abs(expected).max()))
    slope = axes @ found.displacements[0, 0, 2, 3:]
    turns = np.array([0.0, -expected[2], expected[1]]) * 1.5 / LONG
    assert slope == pytest.approx(turns, rel=1e-9, abs=1e-9 * float(np.abs(turns).max()))
    # what the arm carries is plain statics, in its own axes
    foot, after = found.forces[0, 0, 0, 0], found.forces[0, 0, 1, 0]
    assert foot == pytest.approx([0.0, vy, vz, 0.0, -vz * LONG, vy * LONG], rel=1e-9, abs=1e-5)
    assert after == pytest.approx([0.0, vy, vz, 0.0, -vz * 0.7 * LONG, vy * 0.7 * LONG], rel=1e-9, abs=1e-5)


def test_turned_about_its_own_line() -> None:
    """The angle drawn turned by 25 degrees, with `up` turned back by as much, is the same arm.

    To what another mesh does to the torsion constant.
    """
    turn = np.radians(25.0)
    c, s = np.cos(turn), np.sin(turn)
    drawn = Outline(tuple((c * y - s * z, s * y + c * z) for y, z in ANGLE.corners))
    case, bars = cantilever(DIRECTION, UP)
    axes = lay_out(case).axes[0]
    load = {"tip": (55.0, -140.0, 75.0, 8e3, -5e3, 11e3)}
    plain = solve(case, lay_out(case), bars, pushes_of(case, load))
    up = c * axes[2] + s * axes[1]
    arm = attrs.evolve(case.members[0], shape=drawn, up=tuple(up))
    same = attrs.evolve(case, members=(arm,))
    found = solve(same, lay_out(same), measure(same), pushes_of(same, load))
    assert found.displacements == pytest.approx(plain.displacements, rel=5e-4, abs=1e-9)


def test_least_axis_buckles() -> None:
    """Euler about the weakest axis, P = pi^2 E Imin / (4 L^2), neither y nor z."""
    case, bars = cantilever(DIRECTION, UP)
    layout = lay_out(case)
    pushes = pushes_of(case, {"tip": -1000.0 * DIRECTION})
    response = solve(case, layout, bars, pushes)
    _, iy, iz, iyz = by_hand()
    least = float(np.linalg.eigvalsh([[iy, -iyz], [-iyz, iz]])[0])
    expected = np.pi**2 * STEEL.modulus * least / (4.0 * LONG**2) / 1000.0
    assert critical_multiplier(case, layout, bars, pushes, response)[0, 0] == pytest.approx(
        expected, rel=3e-5
    )


def test_shear_areas_turn_along() -> None:
    """Second opinion: sectionproperties' own shear areas about its principal axes."""
    from sectionproperties.analysis.section import Section
    from sectionproperties.pre.geometry import Geometry
    from shapely import Polygon

    from strength.frame.solve import rigidities

    case, bars = cantilever(DIRECTION, UP)
    flexible = attrs.evolve(case, basis=attrs.evolve(case.basis, shear_flexible=True))
    bars = measure(flexible)
    geometry = Geometry(Polygon(ANGLE.corners))
    geometry.create_mesh([1.0])
    section = Section(geometry)
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    area_1, area_2 = section.get_as_p()
    i_1, i_2 = section.get_ip()
    _, _, ei_y, ei_z, ga_y, ga_z = (part[0, 0] for part in rigidities(lay_out(case), bars))
    # the greater second moment belongs to bending about 1, and with it the force along 2
    stiff, soft = (ei_y, ga_z), (ei_z, ga_y)
    if ei_z > ei_y:
        stiff, soft = soft, stiff
    assert [stiff[0], soft[0]] == pytest.approx([STEEL.modulus * i_1, STEEL.modulus * i_2], rel=1e-6)
    shear = STEEL.shear_modulus
    assert [stiff[1], soft[1]] == pytest.approx([shear * area_2, shear * area_1], rel=0.01)


def test_symmetric_outlines_are_left_alone() -> None:
    """A tee stands in its principal axes already; a bare section has no outline to turn."""
    tee = Outline(
        (
            (0.0, 40.0),
            (24.0, 40.0),
            (24.0, 45.0),
            (14.0, 45.0),
            (14.0, 70.0),
            (10.0, 70.0),
            (10.0, 45.0),
            (0.0, 45.0),
        )
    )
    assert principal_turn(tee) == 0.0
    assert abs(principal_turn(ANGLE)) > 0.1
    case, _ = cantilever(DIRECTION, UP)
    _, iy, iz, _ = by_hand()
    plain = attrs.evolve(case.members[0], shape=Bare(area=304.0, iy=iy, iz=iz, torsion=1600.0))
    bars = measure(attrs.evolve(case, members=(plain,)))
    layout = lay_out(case)
    pushes = pushes_of(case, {"tip": 210.0 * layout.axes[0, 2]})
    tip = (
        layout.axes[0]
        @ solve(attrs.evolve(case, members=(plain,)), layout, bars, pushes).displacements[0, 0, 2, :3]
    )
    assert tip == pytest.approx([0.0, 0.0, 210.0 * LONG**3 / (3.0 * STEEL.modulus * iy)], abs=1e-9)


def test_angle_of_the_mesh_and_of_the_polygon() -> None:
    """Twice the angle: tan 2a = 2 Iyz/(Iz - Iy) from the mesh's figures, a within 45 degrees."""
    mesh = meshed(ANGLE)
    iy, iz, iyz = (mesh.figure(name) for name in ("iy", "iz", "iyz"))
    angle = principal_turn(ANGLE)
    assert np.tan(2.0 * angle) == pytest.approx(2.0 * iyz / (iz - iy), rel=1e-9)
    assert abs(angle) <= np.pi / 4.0
