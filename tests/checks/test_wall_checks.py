"""`chord-wall`, `chord-punching`, `tab-wall`, `plate-bending` on whole joints, against sums by hand."""

import attrs
import numpy as np
import pytest

from strength.case.model import Basis
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.chord_wall import chord_punching, chord_wall
from strength.checks.plate_bending import plate_bending
from strength.checks.tab_wall import tab_wall
from strength.checks.walls_unchecked import walls_not_checked
from strength.frame.layout import lay_out
from strength.joints import tube_joint as en
from tests.joints.bench import LIMIT_STATE, PLATE, bench, metal, weld

# the leg stands along z on a host along x, both turned by no simple angle
TURN = np.array([[0.36, 0.48, -0.8], [-0.8, 0.6, 0.0], [0.48, 0.64, 0.6]])
RIGHT = np.pi / 2.0


def joint(shape, host, forces, *welds, lean=0.0, inset=None, **given):
    """`leg` leaves `host` at 90 degrees less `lean`; host along TURN[0], leg's `up` along the host."""
    lean = np.radians(lean)
    along = np.cos(lean) * TURN[2] + np.sin(lean) * TURN[0]
    return bench(
        shape,
        forces,
        *(welds or (weld(onto="host", inset=24.0 if inset is None else inset),)),
        host=host,
        host_direction=TURN[0],
        along=along,
        up=tuple(TURN[0]),
        **given,
    )


def rows(check, context):
    """Rows of the first verdict."""
    return next(iter(check(context))).rows(context.load_names)


CHORD, BRACE = Tube(48.3, 3.2), Tube(33.7, 2.6)
# N, Vy, Vz, T, My, Mz; up lies along the host, so My bends in the plane of both
FORCE = [[9000.0, 300.0, 200.0, 1e5, 110e3, 47e3], [-6000.0, 50.0, -90.0, 0.0, -20e3, 160e3]]


def hand(force, face, factor):
    """Multiple u of equation 7.3 by a root search on the load multiple."""
    n, _, _, _, ip, op = (abs(part) * factor for part in force)
    grid = np.roots([1.0, -(n / face[0] + op / face[2]), -((ip / face[1]) ** 2)])
    return max(grid.real)


def test_t_joint_both_modes_on_both_bases():
    """Face 35.02 kN, 0.754, 0.504 kN m and punching 45.97 kN, 0.493 kN m at fy 235; factors 1.67 or 1.5."""
    face = [52.90e3, 1.139e6, 0.761e6]
    punch = [69.44e3, 0.745e6, 0.745e6]
    for basis, factor in ((Basis(), 1.67), (LIMIT_STATE, 1.5)):
        context = joint(BRACE, CHORD, FORCE, basis=basis)
        for check, values in ((chord_wall, face), (chord_punching, punch)):
            for row, force in zip(rows(check, context), FORCE, strict=True):
                expected = hand(force, [value * 235.0 / 355.0 for value in values], factor)
                assert row.demand == pytest.approx(expected, rel=2e-3)
                assert (row.limit, row.unit, row.in_range) == (1.0, "1", True)
                assert row.utilisation == row.demand


def test_leaning_joint_and_only_path():
    """CX3 at fy 235: 50 degrees, in tension; the only path counts 1.25 in the utilisation alone."""
    given = weld(onto="host", inset=31.0, only_path=True)
    (row,) = rows(chord_wall, joint(BRACE, CHORD, [[9000.0, 0, 0, 0, 110e3, 47e3]], given, lean=40.0))
    face = [value * 235.0 / 355.0 for value in (69.05e3, 1.487e6, 0.993e6)]
    assert row.demand == pytest.approx(hand([9000.0, 0, 0, 0, 110e3, 47e3], face, 1.67), rel=2e-3)
    assert row.utilisation == pytest.approx(1.25 * row.demand)
    assert row.note.startswith("Y joint, 50 degrees")


def test_chord_compression_weakens_the_face_but_not_punching():
    """The worse of both sides: -N/A + M/W over fy, on the allowable basis with the yield factor."""
    area = np.pi * 3.2 * 45.1
    inertia = np.pi / 64.0 * (48.3**4 - 41.9**4)
    sides = [[-9000.0, 0, 0, 0, 2e5, 3e5], [4000.0, 0, 0, 0, -5e5, 1e5]]
    stress = max(
        9000.0 / area + np.hypot(2e5, 3e5) * 24.15 / inertia,
        -4000.0 / area + np.hypot(5e5, 1e5) * 24.15 / inertia,
    )
    plain = joint(BRACE, CHORD, FORCE[:1])
    pressed = joint(BRACE, CHORD, FORCE[:1], host_forces=sides)
    weak = en.chord_factor(np.array(stress * 1.67 / 235.0))
    assert 0.5 < weak < 0.9
    assert rows(chord_wall, pressed)[0].demand == pytest.approx(
        rows(chord_wall, plain)[0].demand / weak, rel=1e-9
    )
    assert rows(chord_punching, pressed)[0].demand == rows(chord_punching, plain)[0].demand


@pytest.mark.parametrize(
    ("brace", "chord", "material", "lean", "words"),
    [
        (Tube(33.7, 2.0), CHORD, "S235", 0.0, "leg: wall under 2.5 mm"),
        (BRACE, Tube(48.3, 2.0), "S235", 0.0, "host: wall under 2.5 mm"),
        (Tube(48.3, 2.6), Tube(300.0, 8.0), "S235", 0.0, "diameters outside"),
        (BRACE, Tube(48.3, 5.0), "S235", 0.0, "diameter over wall of host"),
        (Tube(33.7, 5.0), CHORD, "S235", 0.0, "diameter over wall of leg"),
        (Bar(25.0), CHORD, "S235", 0.0, "solid"),
        (BRACE, CHORD, "S500", 0.0, "over 460"),
        (BRACE, CHORD, "6082-T6", 0.0, "for steel"),
        (BRACE, CHORD, "S235", 62.0, "under 30 degrees"),
    ],
)
def test_outside_the_tables_is_said_and_never_a_plain_pass(brace, chord, material, lean, words):
    """Every limit of Table 7.1 by itself."""
    filler = "5356" if material == "6082-T6" else "G42"
    hard = metal("S500", yield_=500.0, yield_welded=500.0, ultimate=600.0, ultimate_welded=600.0)
    given = weld(onto="host", inset=24.0, filler=filler)
    context = joint(brace, chord, FORCE, given, lean=lean, host_material=material, metals={"S500": hard})
    for row in rows(chord_wall, context):
        assert not row.in_range
        assert words in row.note
    assert all(row.in_range for row in rows(chord_wall, joint(BRACE, CHORD, FORCE)))


def test_strong_steel_counts_nine_tenths():
    """Above 355 MPa: x 0.9."""
    hard = metal("S460", yield_=460.0, yield_welded=460.0, ultimate=540.0, ultimate_welded=540.0)
    strong = rows(chord_wall, joint(BRACE, CHORD, FORCE[:1], host_material="S460", metals={"S460": hard}))[0]
    plain = rows(chord_wall, joint(BRACE, CHORD, FORCE[:1]))[0]
    assert strong.demand / plain.demand == pytest.approx(235.0 / (0.9 * 460.0))


def crossing(direction, force, **given):
    """`leg` and a second tube `mate` from the same place of the host, both welded onto it; the mate's N."""
    welds = (
        weld(onto="host", inset=24.15),
        weld(name="second", member="mate", onto="host", inset=24.15),
    )
    context = joint(BRACE, CHORD, FORCE[:1], *welds, others=(("mate", BRACE, direction),), **given)
    context.response.forces[:, :, 3, :, 0] = force
    return context


def test_two_tubes_opposite_are_an_x_joint():
    """CX4: the X value where it is the lesser; each brace has its own row."""
    context = crossing(-TURN[2], 500.0)
    row = rows(chord_wall, context)[0]
    face = [value * 235.0 / 355.0 for value in (43.47e3, 1.139e6, 0.761e6)]
    assert row.demand == pytest.approx(hand(FORCE[0], face, 1.67), rel=2e-3)
    assert "X with mate" in row.note
    assert [verdict.part for verdict in chord_wall(context)] == ["seam", "second"]


def test_two_tubes_leaning_apart_are_a_k_joint_only_in_balance():
    """CX5's formulas with the gap of the case; forces that do not balance leave a Y joint."""
    lean = np.radians(50.0)
    mate = np.cos(lean) * TURN[2] - np.sin(lean) * TURN[0]
    for pull, letter in ((-9000.0, "K with mate"), (9000.0, "Y"), (-7000.0, "Y"), (-7400.0, "K with mate")):
        context = crossing(mate, pull, lean=50.0)
        row = rows(chord_wall, context)[0]
        assert row.note.startswith(f"{letter} joint, 40 degrees")
    # feet: each d1/sin along the chord, one beside the other where the middle lines cross on the chord's
    half = 24.15 / np.tan(np.radians(40.0))
    gap = 2.0 * (half - 33.7 / 2.0 / np.sin(np.radians(40.0)))
    assert gap == pytest.approx(5.13, abs=0.01)


def test_a_tube_in_another_plane_at_the_same_place_is_out_of_range():
    """Three tubes at one place are no case of the tables."""
    context = crossing(TURN[1], 0.0)
    row = rows(chord_wall, context)[0]
    assert not row.in_range
    assert "mate meets the wall at the same place" in row.note


def test_tube_near_the_end_of_its_host():
    """A weld that runs past the host's end: no chord on that side to carry it."""
    context = joint(BRACE, CHORD, FORCE)
    shifted = np.array(context.layout.points)
    names = context.layout.names
    shifted[names.index("h0")] = shifted[names.index("a")] - 8.0 * TURN[0]
    points = tuple(attrs.evolve(p, at=tuple(at)) for p, at in zip(context.case.points, shifted, strict=True))
    case = attrs.evolve(context.case, points=points)
    row = rows(chord_wall, attrs.evolve(context, case=case, layout=lay_out(case)))[0]
    assert not row.in_range
    assert "runs past the end of host" in row.note


def test_plate_along_a_tube():
    """5 kp fy t0^2 (1 + 0.25 h1/d0), lever h1 in the plane; sideways bending is out of range."""
    plate, host = Flat(50.0, 3.0), Tube(60.3, 3.0)
    capacity = 5.0 * 235.0 * 9.0 * (1.0 + 0.25 * 50.0 / 60.3)
    (row,) = rows(tab_wall, joint(plate, host, [[6500.0, 0, 0, 0, 20e3, 0.0]], inset=30.0))
    expected = hand([6500.0, 0, 0, 0, 20e3, 0], [capacity, capacity * 50.0, 1.0], 1.67)
    assert row.demand == pytest.approx(expected, rel=1e-9)
    assert row.in_range
    assert "its wall bends" in row.note
    (row,) = rows(tab_wall, joint(plate, host, [[6500.0, 0, 0, 0, 20e3, 5e3]], inset=30.0))
    expected = hand([6500.0, 0, 0, 0, 20e3, 5e3], [capacity, capacity * 50.0, capacity * 1.5], 1.67)
    assert row.demand == pytest.approx(expected, rel=1e-9)
    assert not row.in_range
    assert "its own thickness" in row.note


def test_plate_across_a_tube_and_another_opposite():
    """4 + 20 beta^2, alone; with a second opposite the lesser of that and 5/(1 - 0.81 beta)."""
    host, plate, force = Tube(60.3, 2.0), Flat(40.0, 5.0), [[5000.0, 0, 0, 0, 0, 30e3]]
    along = TURN[2]
    for mates, factor in (
        ((), 4.0 + 20.0 * (40.0 / 60.3) ** 2),
        ((("mate", plate, -TURN[2]),), 5.0 / (1.0 - 0.81 * 40.0 / 60.3)),
    ):
        welds = [weld(onto="host", inset=30.0)]
        welds += [weld(name="second", member=name, onto="host", inset=30.0) for name, _, _ in mates]
        context = bench(
            plate, [[5000.0, 0, 0, 0, 30e3, 0]], *welds, host=host, host_direction=TURN[0], along=along,
            up=tuple(TURN[1]), others=mates,
        )  # fmt: skip
        capacity = factor * 235.0 * 4.0
        (row,) = rows(tab_wall, context)
        # My bends about the host's direction: out of the plane of both, lever b1/2
        assert row.demand == pytest.approx(
            hand([force[0][0], 0, 0, 0, 0, 30e3], [capacity, 1.0, 20.0 * capacity], 1.67)
        )


def test_thick_plate_on_a_thin_tube_punches():
    """(N/A + M/W) t1 against 2 t0 fy/sqrt(3)."""
    (row,) = rows(
        tab_wall, joint(Flat(20.0, 12.0), Tube(30.0, 2.8), [[3000.0, 0, 0, 0, 30e3, 0.0]], inset=15.0)
    )
    stress = 3000.0 / 240.0 + 30e3 / (12.0 * 400.0 / 6.0)
    punched = 1.67 * stress * 12.0 / (2.0 * 2.8 * 235.0 / np.sqrt(3.0))
    face = 5.0 * 235.0 * 2.8**2 * (1.0 + 0.25 * 20.0 / 30.0)
    bent = hand([3000.0, 0, 0, 0, 30e3, 0], [face, face * 20.0, 1.0], 1.67)
    assert row.demand == pytest.approx(max(punched, bent), rel=1e-9)


def test_box_on_a_box_by_the_tables():
    """50 x 50 x 3 under 30 x 30 x 2.5: Tables 7.11 and 7.14 by hand, limit-state."""
    (row,) = rows(
        tab_wall,
        joint(
            Box(30.0, 30.0, 2.5),
            Box(50.0, 50.0, 3.0),
            [[5000.0, 0, 0, 0, 60e3, 40e3]],
            inset=25.0,
            basis=LIMIT_STATE,
        ),
    )
    beta, unit = 0.6, 235.0 * 9.0
    axial = unit / 0.4 * (2.0 * 0.6 + 4.0 * np.sqrt(0.4))
    in_plane = unit * 30.0 * (0.5 / 0.6 + 2.0 / np.sqrt(0.4) + 0.6 / 0.4)
    out = unit * (30.0 * (1.0 + beta) / (2.0 * 0.4) + np.sqrt(2.0 * 50.0 * 30.0 * 1.6 / 0.4))
    distort = 2.0 * 235.0 * 3.0 * (30.0 * 3.0 + np.sqrt(50.0 * 50.0 * 3.0 * 100.0))
    assert row.demand == pytest.approx(
        hand([5000.0, 0, 0, 0, 60e3, 40e3], [axial, in_plane, min(out, distort)], 1.5)
    )


def test_where_only_the_plain_sum_exceeds_one_the_row_is_out_of_range():
    """EN 1993-1-8 7.5.2 adds the ratios on boxes; the interaction here squares one of them."""
    box = Box(30.0, 30.0, 2.5), Box(50.0, 50.0, 3.0)
    unit = rows(tab_wall, joint(*box, [[10000.0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 300e3, 0]], inset=25.0))
    n, m = (row.utilisation for row in unit)
    for share, known in ((0.45, True), (0.6, False)):
        force = [[10000.0 * share / n, 0, 0, 0, 300e3 * share / m, 0]]
        (row,) = rows(tab_wall, joint(*box, force, inset=25.0))
        assert row.utilisation < 1.0
        assert row.in_range is known


def test_round_tube_on_a_box_is_the_square_one_times_pi_over_four():
    """Table 7.10; its bending is not in Table 7.14 and puts the row out of range."""
    host, force = Box(60.0, 60.0, 3.0), [[6000.0, 0, 0, 0, 0, 0], [6000.0, 0, 0, 0, 9e4, 0]]
    tube = rows(tab_wall, joint(Tube(36.0, 2.6), host, force, inset=30.0))
    square = rows(tab_wall, joint(Box(36.0, 36.0, 2.6), host, force, inset=30.0))
    assert tube[0].demand == pytest.approx(square[0].demand * 4.0 / np.pi)
    assert [row.in_range for row in tube] == [True, False]
    assert [row.in_range for row in square] == [True, True]


def test_flat_bent_by_a_member_on_its_face():
    """6 M/(b_eff t^2) at each end and beside the weld; b_eff = c/K_m, at most the width."""
    sides = [[0, 0, 0, 0, 0, 8e4], [0, 0, 0, 0, 0, -1.5e5]]
    host = np.array([1.0, 0.0, 0.0])
    for width, expected in (
        (60.0, 6.0 * 1.5e5 / (60.0 * 100.0)),
        (
            2000.0,
            max(
                6.0 * 8e4 / (250.0 / np.interp(250.0 / 600.0, [0.25, 0.5], [0.332, 0.370]) * 100.0),
                6.0 * 1.5e5 / (350.0 / np.interp(350.0 / 600.0, [0.5, 0.75], [0.370, 0.428]) * 100.0),
                6.0 * 8e4 / (250.0 / 0.509 * 100.0),
                6.0 * 1.5e5 / (350.0 / 0.509 * 100.0),
            ),
        ),
    ):
        context = bench(
            Bar(20.0), [[0.0] * 6], weld(onto="host", inset=5.0), host=Flat(width, 10.0), host_direction=host,
            along=np.array([0.0, 1.0, 0.0]), up=(1.0, 0.0, 0.0), host_forces=sides,
        )  # fmt: skip
        (row,) = rows(plate_bending, context)
        assert row.demand == pytest.approx(expected, rel=1e-9)
        assert row.limit == pytest.approx(235.0 / 1.67)


def test_what_has_no_check_is_told():
    """Plates by thickness alone, members lying along their host; nothing where a check holds."""
    assert list(walls_not_checked(joint(BRACE, CHORD, FORCE))) == []
    (told,) = walls_not_checked(bench(BRACE, FORCE, weld(onto=PLATE)))
    assert (told.part, told.kind) == ("seam", "plate-bending")
    beside = bench(
        BRACE, FORCE, weld(onto="host", inset=5.0), host=Box(60.0, 40.0, 3.0), host_direction=TURN[0],
        along=TURN[0], up=tuple(TURN[1]),
    )  # fmt: skip
    (told,) = walls_not_checked(beside)
    assert (told.part, told.kind) == ("seam", "tab-wall")
    assert "lies along host" in told.why
    assert list(tab_wall(beside)) == []
