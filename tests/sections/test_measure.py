"""From shapes and metals to bars."""

import attrs
import numpy as np
import pytest

from strength.case.model import Basis, Case, Member, Point, Strut
from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Shape, Tube
from strength.errors import CaseError, RangeError
from strength.library import Metal, Strength, wall_tolerance
from strength.sections import Sizes, measure, rebuilt, resized

STEEL = Metal(
    name="mild",
    kind="steel",
    modulus=210e3,
    poisson=0.3,
    shear_modulus=81e3,
    density=7.85e-6,
    weldable=True,
    buckling_curve="c",
    rows=(
        Strength(
            yield_=235.0,
            ultimate=360.0,
            yield_welded=230.0,
            ultimate_welded=350.0,
            elongation=0.25,
            up_to=16.0,
        ),
        Strength(
            yield_=225.0, ultimate=360.0, yield_welded=None, ultimate_welded=None, over=16.0, up_to=40.0
        ),
    ),
)
HARD = attrs.evolve(
    STEEL,
    name="hard tube",
    rows=(
        Strength(yield_=500.0, ultimate=650.0, yield_welded=None, ultimate_welded=None, diameter_to=30.0),
        Strength(yield_=450.0, ultimate=600.0, yield_welded=None, ultimate_welded=None),
    ),
)
SHAPES: tuple[Shape, ...] = (
    Tube(25.0, 2.0),
    Bar(20.0),
    Box(40.0, 20.0, 2.0),
    Flat(70.0, 12.0),
    Flat(5.0, 45.0),
    Rigid(),
    Bare(21226.0, 98.2e6, 298e6, 6.29e6),
)


def case_of(*shapes: Shape, basis: Basis | None = None, metal: Metal = STEEL) -> Case:
    """A case with a member of each shape and one strut by stiffness."""
    return Case(
        title="sections",
        basis=basis or Basis(),
        points=(Point(name="a", at=(0.0, 0.0, 0.0)), Point(name="b", at=(500.0, 30.0, 70.0))),
        members=tuple(
            Member(name=f"m{n}", start="a", end="b", shape=shape, material=metal.name, path=f"member[{n}]")
            for n, shape in enumerate(shapes)
        ),
        struts=(Strut(name="shock", start="a", end="b", stiffness=60.0),),
        metals={metal.name: metal},
    )


def test_order_and_gaps() -> None:
    """Members, then struts; parts without a section have no figures."""
    bars = measure(case_of(*SHAPES))
    assert bars.names == ("m0", "m1", "m2", "m3", "m4", "m5", "m6", "shock")
    assert bars.member_count == 7
    assert np.isnan(bars.area[0, [5, 7]]).all()
    assert bars.metals[5] is None
    assert np.isnan(bars.density[[5, 7]]).all()


def test_sizes() -> None:
    """Depth along `up`, width across, wall as strength goes by it."""
    bars = measure(case_of(*SHAPES))
    assert bars.depth[0, :5].tolist() == [25.0, 20.0, 40.0, 70.0, 5.0]
    assert bars.width[0, :5].tolist() == [25.0, 20.0, 20.0, 12.0, 45.0]
    assert bars.wall[0, :5].tolist() == [2.0, 20.0, 2.0, 12.0, 5.0]


def test_flat_bends_along_its_width() -> None:
    """Iy is for bending along `up`, where the width lies: b h^3/12."""
    bars = measure(case_of(Flat(70.0, 12.0)))
    assert float(bars.iy[0, 0]) == pytest.approx(12.0 * 70.0**3 / 12.0)
    assert float(bars.iz[0, 0]) == pytest.approx(70.0 * 12.0**3 / 12.0)
    assert float(bars.modulus_y[0, 0]) == pytest.approx(12.0 * 70.0**2 / 6.0)


def test_shear_areas() -> None:
    """Cowper's coefficients times the area, v = 0.3: 0.8864 and 0.8497 (solid circle, rectangle)."""
    bars = measure(case_of(Bar(20.0), Flat(70.0, 12.0)))
    assert float(bars.shear_y[0, 0]) == pytest.approx(0.8864 * np.pi * 100.0, rel=1e-4)
    assert float(bars.shear_z[0, 1]) == pytest.approx(0.8497 * 840.0, rel=1e-4)


def test_shear_stiff_on_request() -> None:
    """Euler-Bernoulli members have no shear flexibility."""
    bars = measure(case_of(*SHAPES[:5], basis=Basis(shear_flexible=False)))
    assert np.isinf(bars.shear_y[0, :5]).all()
    assert np.isinf(bars.shear_z[0, :5]).all()


def test_bare_properties() -> None:
    """As given; shear stiff, no moduli and no strengths, since the form is not known."""
    bars = measure(case_of(*SHAPES))
    assert [float(x[0, 6]) for x in (bars.area, bars.iy, bars.iz, bars.torsion)] == [
        21226.0,
        98.2e6,
        298e6,
        6.29e6,
    ]
    assert np.isinf(bars.shear_z[0, 6])
    assert np.isnan(bars.modulus_y[0, 6])
    assert np.isnan(bars.yield_[0, 6])
    assert bars.youngs[0, 6] == 210e3


def test_strength_by_thickness() -> None:
    """The row of the wall, the thickness or the diameter; welded values fall back on the parent's."""
    bars = measure(case_of(Tube(25.0, 2.0), Bar(20.0), Flat(70.0, 16.0), Flat(70.0, 16.5)))
    assert bars.yield_[0, :4].tolist() == [235.0, 225.0, 235.0, 225.0]
    assert bars.yield_welded[0, :4].tolist() == [230.0, 225.0, 230.0, 225.0]
    assert bars.ultimate_welded[0, :4].tolist() == [350.0, 360.0, 350.0, 360.0]
    assert bars.elongation[0, 0] == 0.25
    assert np.isnan(bars.elongation[0, 1])


def test_strength_by_diameter() -> None:
    """Rows limited to small tubes go by the outside diameter, as `Metal.strength` has it."""
    shapes = (Tube(30.0, 2.0), Tube(30.1, 2.0), Bar(12.0), Box(40.0, 40.0, 2.0))
    bars = measure(case_of(*shapes, metal=HARD))
    expected = [
        HARD.strength(2.0, 30.0),
        HARD.strength(2.0, 30.1),
        HARD.strength(12.0, 12.0),
        HARD.strength(2.0),
    ]
    assert bars.yield_[0, :4].tolist() == [row.yield_ for row in expected] == [500.0, 450.0, 500.0, 500.0]


def test_all_faults_together() -> None:
    """Every bar that cannot be measured is named with its path."""
    with pytest.raises(CaseError) as caught:
        measure(case_of(Flat(90.0, 50.0), Tube(25.0, 2.0), Box(15.0, 15.0, 4.0)))
    assert [path for path, _ in caught.value.faults] == ["member[0]", "member[2]"]
    assert "50 mm" in caught.value.faults[0][1]
    assert "corners" in caught.value.faults[1][1]


def test_least_wall() -> None:
    """`wall = "minimum"` takes the tolerance off tubes and boxes and leaves strength to the nominal wall."""
    thin = measure(case_of(*SHAPES[:4], basis=Basis(wall="minimum")))
    for number, nominal in ((0, 2.0), (2, 2.0)):
        expected = nominal - wall_tolerance(STEEL, nominal).minus
        assert 0.5 * nominal < float(thin.wall[0, number]) < nominal
        assert float(thin.wall[0, number]) == pytest.approx(expected)
    assert float(thin.area[0, 0]) == pytest.approx(np.pi * thin.wall[0, 0] * (25.0 - thin.wall[0, 0]))
    assert thin.wall[0, 1] == 20.0
    assert thin.wall[0, 3] == 12.0


def test_least_wall_keeps_the_row_of_the_nominal_one() -> None:
    """A nominal 16.5 mm wall stays in its own thickness range."""
    case = case_of(Tube(120.0, 16.5), basis=Basis(wall="minimum"))
    assert measure(case).yield_[0, 0] == 225.0


def test_many_designs() -> None:
    """Each design of a batch is what it is alone."""
    case = case_of(*SHAPES)
    bars = measure(case)
    other = (
        Tube(30.0, 1.5),
        Bar(18.0),
        Box(50.0, 30.0, 3.0),
        Flat(60.0, 18.0),
        Flat(6.0, 40.0),
        *SHAPES[5:],
        None,
    )
    both = resized(bars, case.basis, [(*SHAPES, None), other])
    alone = measure(attrs.evolve(case, members=case_of(*other[:7]).members))
    for field in ("area", "iy", "iz", "torsion", "shear_y", "modulus_z", "yield_", "wall"):
        found = getattr(both, field)
        assert found.shape == (2, 8)
        assert np.array_equal(found[0], getattr(bars, field)[0], equal_nan=True)
        assert np.array_equal(found[1], getattr(alone, field)[0], equal_nan=True)


def test_sizes_without_strength() -> None:
    """A study that asks for a thickness the metal does not have is told so."""
    bars = measure(case_of(Flat(70.0, 12.0)))
    depth, thick = np.array([[90.0, np.nan]]), np.array([[55.0, np.nan]])
    sizes = Sizes(depth=depth, width=thick, wall=thick)
    with pytest.raises(RangeError, match="55 mm"):
        rebuilt(bars, Basis(), sizes)


def test_outline(tmp_path: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """An outline's strength goes by its largest inscribed circle: here a 4 mm wall all round."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    ring = Outline(
        ((0.0, 0.0), (30.0, 0.0), (30.0, 50.0), (0.0, 50.0)),
        (((4.0, 4.0), (26.0, 4.0), (26.0, 46.0), (4.0, 46.0)),),
    )
    bars = measure(case_of(ring, Tube(25.0, 2.0)))
    assert float(bars.area[0, 0]) == pytest.approx(30.0 * 50.0 - 22.0 * 42.0)
    assert 4.0 <= float(bars.wall[0, 0]) < 5.0  # a corner holds a slightly larger circle than a wall
    assert bars.yield_[0, 0] == 235.0
    assert abs(float(bars.iyz[0, 0])) < 1e-3
