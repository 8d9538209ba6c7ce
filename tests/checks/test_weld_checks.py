"""`weld-throat` and `weld-toe` on whole parts, against sums by hand."""

import attrs
import numpy as np
import pytest

from strength.case.model import Basis, Plate
from strength.case.shape import Bar, Box, Flat, Outline, Tube
from strength.checks.weld_throat import weld_throat
from strength.checks.weld_toe import weld_toe
from strength.errors import CaseError
from tests.joints.bench import LIMIT_STATE, PLATE, S235, bench, metal, weld

FORCES = [
    [1400.0, 320.0, -510.0, 21e3, 64e3, -38e3],
    [-2300.0, -90.0, 150.0, -9e3, -31e3, 72e3],
]
THROAT = 4.0 / np.sqrt(2.0)


def rows(check, context):
    """The rows of the first weld."""
    return next(iter(check(context))).rows(context.load_names)


def ring(force, radius):
    """Force per length round a tube by the shop formulas: P/L, M r/(pi r^3), T/(2 pi r^2)."""
    n, vy, vz, t, my, mz = force
    phi = np.linspace(0.0, 2.0 * np.pi, 200001)
    length = 2.0 * np.pi * radius
    axial = n / length + (my * np.sin(phi) - mz * np.cos(phi)) / (np.pi * radius**2)
    along = (-vy * np.sin(phi) + vz * np.cos(phi)) / length + t / (2.0 * np.pi * radius**2)
    out = (vy * np.cos(phi) + vz * np.sin(phi)) / length
    return axial, along, out


def test_tube_all_round_allowable():
    """Resultant on the throat against 0.60 x 500 x 0.8/2.00."""
    context = bench(Tube(30.0, 2.5), FORCES, weld(onto=PLATE))
    for row, force in zip(rows(weld_throat, context), FORCES, strict=True):
        x, s, n = ring(force, 15.0)
        assert row.demand == pytest.approx(np.sqrt(x**2 + s**2 + n**2).max() / THROAT, rel=1e-8)
        assert row.limit == pytest.approx(0.60 * 500.0 * 0.8 / 2.0)
        assert row.utilisation == pytest.approx(row.demand / row.limit)
        assert (row.unit, row.fails, row.in_range) == ("MPa", "parts", True)


def test_tube_all_round_limit_state():
    """Worse 45 degree throat, load factor 1.5, fu of the weakest (360), beta_w 0.80, gamma_M2 1.25."""
    context = bench(Tube(30.0, 2.5), FORCES, weld(onto=PLATE, quality="good"), basis=LIMIT_STATE)
    for row, force in zip(rows(weld_throat, context), FORCES, strict=True):
        x, s, n = (1.5 * part / THROAT for part in ring(force, 15.0))
        combined = np.sqrt(2.0 * (x**2 + abs(x * n) + n**2) + 3.0 * s**2).max()
        assert row.demand == pytest.approx(combined, rel=1e-8)
        assert row.limit == pytest.approx(360.0 / 0.80 / 1.25)


def test_hollow_host_takes_the_simplified_method():
    """Resultant against fu/(sqrt(3) beta_w gM2) on a box, weaker part S235 of S235 and S355."""
    context = bench(
        Tube(30.0, 2.5),
        FORCES,
        weld(onto="host", quality="good", inset=20.0),
        host=Box(60.0, 40.0, 3.0),
        host_material="S355",
        host_direction=np.array([0.8, -0.64, 0.0]),
        basis=LIMIT_STATE,
    )
    for row, force in zip(rows(weld_throat, context), FORCES, strict=True):
        x, s, n = ring(force, 15.0)
        assert row.demand == pytest.approx(1.5 * np.sqrt(x**2 + s**2 + n**2).max() / THROAT, rel=1e-8)
        assert row.limit == pytest.approx(360.0 / np.sqrt(3.0) / 0.80 / 1.25)


def test_toe_of_a_tube_by_hand():
    """Four conditions: both faces over the leg, tube wall 1.5, plate 2 mm; welded ultimate over 2.00."""
    plate = Plate(thickness=2.0, material="S275")
    context = bench(Tube(30.0, 1.5), FORCES, weld(onto=plate))
    for row, force in zip(rows(weld_toe, context), FORCES, strict=True):
        x, s, n = ring(force, 15.0)
        stresses = {
            360.0: [
                np.sqrt(n**2 + 3.0 * (x**2 + s**2)).max() / 4.0,
                np.sqrt(x**2 + 3.0 * s**2).max() / 1.5,
            ],
            410.0: [
                np.sqrt(x**2 + 3.0 * (n**2 + s**2)).max() / 4.0,
                np.sqrt(3.0) * abs(x).max() / 2.0,
            ],
        }
        worst = max(stress / fu for fu, group in stresses.items() for stress in group)
        assert row.utilisation == pytest.approx(2.0 * worst, rel=1e-8)
        assert row.demand / row.limit == pytest.approx(row.utilisation)


@pytest.mark.parametrize(
    ("shape", "given", "thickness"),
    [
        (Flat(80.0, 6.0), {"pattern": "sides"}, 3.0),
        (
            Flat(80.0, 6.0),
            {"pattern": "lines", "lines": ((-3.0, 40.0, 3.0, 40.0), (-3.0, -40.0, 3.0, -40.0))},
            6.0,
        ),
        (Box(80.0, 40.0, 2.5), {"pattern": "sides"}, 2.5),
        (
            Tube(80.0, 2.0),
            {"pattern": "lines", "lines": ((-9.0, 30.0, 9.0, 30.0), (-9.0, -30.0, 9.0, -30.0))},
            2.0,
        ),
    ],
    ids=["flat along its width", "flat across its ends", "box", "tube by lines"],
)
def test_wall_behind_the_toe(shape, given, thickness):
    """Pulled straight: q over t/2 on lines along a flat's width, else over the wall (wide leg)."""
    context = bench(
        shape, [[6000.0, 0, 0, 0, 0, 0]], weld(leg=30.0, onto=Plate(thickness=60.0, material="S235"), **given)
    )
    length = {"sides": 2.0 * (80.0 - 2.0 * 5.0) if isinstance(shape, Box) else 160.0}.get(given["pattern"])
    if length is None:
        length = sum(np.hypot(c - a, d - b) for a, b, c, d in given["lines"])
    (row,) = rows(weld_toe, context)
    assert row.demand == pytest.approx(6000.0 / length / thickness)


def test_bars_have_no_wall_and_flat_hosts_their_thickness():
    """A bar is judged at the faces only; a thin flat host by shear through its thickness."""
    pulled = [[5000.0, 0, 0, 0, 0, 0]]
    length = np.pi * 20.0
    (row,) = rows(weld_toe, bench(Bar(20.0), pulled, weld(leg=5.0)))
    assert row.demand == pytest.approx(np.sqrt(3.0) * 5000.0 / length / 5.0)
    thin = bench(
        Bar(20.0),
        pulled,
        weld(leg=5.0, onto="host"),
        host=Flat(90.0, 1.6),
        host_direction=np.array([0.8, -0.64, 0.1]),
    )
    (row,) = rows(weld_toe, thin)
    assert row.demand == pytest.approx(np.sqrt(3.0) * 5000.0 / length / 1.6)
    assert "host" in row.note
    solid = bench(
        Bar(20.0),
        pulled,
        weld(leg=5.0, onto="host"),
        host=Bar(60.0),
        host_direction=np.array([0.8, -0.64, 0.0]),
    )
    assert rows(weld_toe, solid)[0].demand < 5000.0 * np.sqrt(3.0) / length / 5.0 * 1.001


def test_brazing_and_bronze():
    """0.40 x 345 x 0.8 over 2.00 or 1.25."""
    for basis, factor in ((Basis(), 2.0), (LIMIT_STATE, 1.25)):
        context = bench(Tube(25.0, 2.0), FORCES, weld(process="braze", filler="bronze"), basis=basis)
        assert rows(weld_throat, context)[0].limit == pytest.approx(0.40 * 345.0 * 0.8 / factor)


def test_aluminium_allowable_and_limit_state():
    """0.48 x 240 of the filler; fw 210 by the parent, the lower of two; TIG takes 0.8 of the toe."""
    soft = metal("6060-T6", "aluminium", family="6060", series="6xxx", ultimate=170.0, ultimate_welded=100.0)
    given = {"filler": "5356", "process": "tig", "quality": "good"}
    tube, more = Tube(30.0, 3.0), {"material": "6082-T6", "metals": {"6060-T6": soft}}
    (first, _) = rows(weld_throat, bench(tube, FORCES, weld(**given), **more))
    assert first.limit == pytest.approx(0.48 * 240.0 / 2.0)
    (first, _) = rows(weld_throat, bench(tube, FORCES, weld(**given), basis=LIMIT_STATE, **more))
    assert first.limit == pytest.approx(210.0 / 1.25)
    onto = Plate(thickness=5.0, material="6060-T6")
    (first, _) = rows(weld_throat, bench(tube, FORCES, weld(onto=onto, **given), basis=LIMIT_STATE, **more))
    assert first.limit == pytest.approx(160.0 / 1.25)
    (first, _) = rows(weld_toe, bench(tube, FORCES, weld(**given), **more))
    assert first.limit == pytest.approx(185.0 * 0.8 / 2.0)


def test_parent_that_the_filler_table_does_not_hold_is_out_of_range():
    """Limit-state only: the allowable basis goes by the filler alone."""
    odd = metal("3004-H34", "aluminium", family="3004", series="3xxx")
    more = {"material": "3004-H34", "metals": {"3004-H34": odd}}
    given = weld(filler="5356", quality="good")
    (first, _) = rows(weld_throat, bench(Tube(30.0, 3.0), FORCES, given, basis=LIMIT_STATE, **more))
    assert first.limit == pytest.approx(160.0 / 1.25)
    assert not first.in_range
    assert "5356" in first.note
    assert rows(weld_throat, bench(Tube(30.0, 3.0), FORCES, given, **more))[0].in_range


def test_heat_that_no_rule_covers_puts_the_toe_out_of_range():
    """Stick on aluminium, TIG over 6 mm."""
    for wall, process, covered in (
        (3.0, "stick", False),
        (3.0, "tig", True),
        (7.0, "tig", False),
        (7.0, "mig", True),
    ):
        context = bench(Tube(60.0, wall), FORCES, weld(filler="5356", process=process), material="6082-T6")
        assert rows(weld_toe, context)[0].in_range is covered


def test_only_path_multiplies_the_utilisation_alone():
    """Own key before the member's; demand and limit stay."""
    plain = rows(weld_throat, bench(Tube(30.0, 2.5), FORCES, weld()))[0]
    for member, own, factor in (
        (True, None, 1.25),
        (True, False, 1.0),
        (False, True, 1.25),
        (False, None, 1.0),
    ):
        row = rows(weld_throat, bench(Tube(30.0, 2.5), FORCES, weld(only_path=own), only_path=member))[0]
        assert row.utilisation == pytest.approx(plain.utilisation * factor)
        assert (row.demand, row.limit) == (plain.demand, plain.limit)


def test_weld_at_the_other_end_and_inset():
    """Uniform forces: the same at `to`; a force that varies is read at the inset plane."""
    here = rows(weld_throat, bench(Tube(30.0, 2.5), FORCES, weld()))
    there = rows(weld_throat, bench(Tube(30.0, 2.5), FORCES, weld(end="to")))
    assert [row.demand for row in here] == pytest.approx([row.demand for row in there])
    context = bench(Tube(30.0, 2.5), FORCES, weld(inset=100.0), weld(name="far", end="to", inset=300.0))
    context.response.forces[:, :, 0, 1] *= 3.0
    near, far = (verdict.rows(context.load_names)[0].demand for verdict in weld_throat(context))
    assert near == pytest.approx(1.5 * here[0].demand)
    assert far == pytest.approx(near)


def test_where_is_said_in_a_welders_words():
    """A level tube bent by a load from above: worst on top or underneath; sideways: left or right."""
    level = {"along": np.array([1.0, 0.0, 0.0]), "up": (0.0, 0.0, 1.0)}
    context = bench(
        Tube(30.0, 2.5),
        [[0, 0, 0, 0, 9e4, 0], [500, 0, 0, 0, 9e4, 0], [900, 0, 0, 0, 0, 5e4]],
        weld(),
        **level,
    )
    places = [row.where for row in rows(weld_throat, context)]
    assert places[0] in ("top", "underside")
    assert places[1:] == ["top", "right"]


def test_face_angle_outside_sixty_to_a_hundred_and_twenty():
    """A thin tube on a thick one square to it is in range; a wide one, or one leaning 50 degrees, is not."""
    square = {"along": np.array([0.0, 0.0, 1.0]), "up": (1.0, 0.0, 0.0)}
    for od, direction, expected in (
        (20.0, (1.0, 0.3, 0.0), True),
        (30.0, (1.0, 0.3, 0.0), False),
        (20.0, (1.0, 0.3, 0.84), False),
    ):
        context = bench(
            Tube(od, 2.0),
            FORCES,
            weld(onto="host"),
            host=Tube(48.0, 3.0),
            host_direction=np.array(direction),
            **square,
        )
        for check in (weld_throat, weld_toe):
            row = rows(check, context)[0]
            assert row.in_range is expected
            assert ("60 to 120 degrees" in row.note) is not expected


@pytest.mark.parametrize(
    ("shape", "given", "host", "text"),
    [
        (Tube(30.0, 2.0), {"pattern": "sides"}, None, "no two sides"),
        (Tube(50.0, 2.0), {"onto": "host"}, Tube(48.0, 3.0), "misses host"),
        (Flat(30.0, 5.0), {"onto": "host", "pattern": "sides"}, Tube(48.0, 3.0), "only pattern around"),
        (Flat(5.0, 5.0), {"pattern": "sides", "leg": 5.0}, None, "leaves no weld"),
    ],
)
def test_lines_that_cannot_be_drawn(shape, given, host, text):
    """One message that names the weld."""
    context = bench(shape, FORCES, weld(path="welds.seam", **given), host=host, basis=LIMIT_STATE)
    with pytest.raises(CaseError, match=text) as caught:
        rows(weld_throat, context)
    assert str(caught.value).startswith("welds.seam: seam: ")


def test_outline_about_its_own_centroid():
    """An L drawn anywhere: pulled straight, no bending appears, and its perimeter carries the force."""
    corners = ((10.0, 5.0), (50.0, 5.0), (50.0, 9.0), (14.0, 9.0), (14.0, 45.0), (10.0, 45.0))
    from strength.joints.outline import pattern

    pieces = pattern(weld(), Outline(corners=corners), *[np.array([np.nan])] * 3)
    area = np.array([[40.0 * 4.0, 30.0, 7.0], [36.0 * 4.0, 12.0, 27.0]])
    centroid = (area[:, :1] * area[:, 1:]).sum(0) / area[:, 0].sum()
    assert pieces.length().sum() == pytest.approx(160.0)
    assert pieces.base[0, 0] == pytest.approx(np.array([10.0, 5.0]) - centroid)
    turned = pattern(weld(), Outline(corners=corners[::-1]), *[np.array([np.nan])] * 3)
    assert turned.base[0].min(axis=0) == pytest.approx(pieces.base[0].min(axis=0))
    cross = np.cross(np.append(pieces.delta[0, 0], 0.0), np.append(pieces.delta[0, 1], 0.0))[2]
    assert cross > 0.0


def test_several_designs_are_each_as_one_alone():
    """Sizes and forces with a designs axis give what each design gives by itself."""
    pulls = np.array(FORCES)
    one = [
        bench(Tube(od, 2.0), pulls * k, weld(onto="host"), host=Tube(45.0, 3.0))
        for od, k in ((22.0, 1.0), (28.0, 1.7))
    ]
    bars = attrs.evolve(
        one[0].bars,
        **{
            field.name: np.concatenate([getattr(c.bars, field.name) for c in one])
            for field in attrs.fields(type(one[0].bars))
            if getattr(one[0].bars, field.name).__class__ is np.ndarray
            and getattr(one[0].bars, field.name).ndim == 2
        },
    )
    response = attrs.evolve(one[0].response, forces=np.concatenate([c.response.forces for c in one]))
    both = attrs.evolve(one[0], bars=bars, response=response)
    for check in (weld_throat, weld_toe):
        together = next(iter(check(both)))
        for d, context in enumerate(one):
            assert together.utilisation[d] == pytest.approx(
                next(iter(check(context))).utilisation[0], rel=1e-9
            )


def test_weld_metal_weaker_than_both_parents_decides():
    """The strength is the least of parents and filler."""
    strong = metal("hard", ultimate=700.0, ultimate_welded=650.0)
    context = bench(
        Tube(30.0, 2.5),
        FORCES,
        weld(quality="good"),
        material="hard",
        metals={"hard": strong, "S235": S235},
        basis=LIMIT_STATE,
    )
    assert rows(weld_throat, context)[0].limit == pytest.approx(500.0 / 1.25)
