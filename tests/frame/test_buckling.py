"""Critical multipliers beyond columns: struts, rigid parts, free bodies, tension.

Closed forms by statics of the buckled shape; Euler's load for the rest.
"""

import attrs
import numpy as np
import pytest

from strength.case.model import Strut
from strength.frame import buckling
from strength.frame.buckling import at_least, compression, critical_multiplier, plan_buckling
from strength.frame.layout import lay_out
from strength.frame.proof import stands
from strength.frame.shapes import upper_bounds
from strength.frame.softening import Softening
from strength.frame.solve import solve
from strength.frame.stability import bending, curve, first_pole
from strength.library.data import cases_folder
from strength.sections import rebuilt, sizes_of
from strength.studies.evaluate import shapes_of
from strength.studies.prepared import prepare
from strength.studies.typed import Edit, typed_case
from tests.frame.building import ALL, Size, bars_of, case_of, even_gauge, member, pushes_of, rigid
from tests.frame.random_frames import random_bars, random_case, random_pushes

SIZE = Size(youngs=2e5, shear=8e4, area=300.0, iy=2e4, iz=7e4, torsion=5e4)


def alphas(case, bars, pushes):
    """Critical multipliers (designs, loads)."""
    layout = lay_out(case)
    return critical_multiplier(case, layout, bars, pushes, solve(case, layout, bars, pushes))


def test_nothing_in_compression():
    """A pulled bar never buckles; an unloaded one neither."""
    case = case_of({"a": (0, 0, 0), "b": (500, 0, 0)}, [member("m", "a", "b")], {"a": ALL})
    pushes = pushes_of(case, {"b": (100, 0, 0)}, {"b": (0, 0, 0)}, {"b": (-1, 0, 0)})
    found = alphas(case, bars_of(case, SIZE), pushes)
    assert np.isinf(found[0, :2]).all()
    assert found[0, 2] == pytest.approx(np.pi**2 * 2e5 * 2e4 / (4 * 500**2), rel=1e-6)


def test_rigid_post_on_an_elastic_foot():
    """A rigid post on a slender foot: M = k turn, P h turn = k turn; the foot's turning stiffness is EI/a.

    The foot lies across, clamped at its far end, and bends by the post's moment alone, which its end
    carries with 4 EI/a where it cannot move: k = 4 EI/a.
    """
    foot, height = 400.0, 700.0
    case = case_of(
        {"wall": (0, 0, 0), "corner": (foot, 0, 0), "top": (foot, 0, height)},
        [member("foot", "wall", "corner"), rigid("post", "corner", "top")],
        {"wall": ALL, "corner": (0, 1, 1, 1, 0, 1)},
    )
    found = alphas(case, bars_of(case, SIZE), pushes_of(case, {"top": (0, 0, -1)}))
    assert found[0, 0] == pytest.approx(4 * 2e5 * 2e4 / foot / height, rel=1e-6)


def test_strut_by_stiffness_holds_its_length():
    """A post propped at its top by a soft strut: clamped-pinned in that plane, whatever the stiffness."""
    height = 900.0
    case = case_of(
        {"foot": (0, 0, 0), "top": (0, 0, height), "left": (-500, 0, height), "right": (0, 600, height)},
        [member("post", "foot", "top", up=(1, 0, 0))],
        {"foot": ALL, "left": ALL, "right": ALL},
        [
            Strut(name="soft", start="left", end="top", stiffness=1e-3),
            Strut(name="firm", start="top", end="right", shape=member("x", "a", "b").shape),
        ],
    )
    bars = bars_of(case, {"post": SIZE, "firm": attrs.evolve(SIZE, area=1e6)})
    found = alphas(case, bars, pushes_of(case, {"top": (0, 0, -1)}))
    assert found[0, 0] == pytest.approx(4.493409458**2 * 2e5 * 2e4 / height**2, rel=1e-4)


def test_free_bar_pressed_at_its_ends():
    """A free bar under two end forces buckles as between pins, pi^2 EI/L^2: its turning does not count."""
    points = {f"p{n}": (0.36 * x, 0.48 * x, 0.8 * x) for n, x in enumerate((0, 350, 650, 1000))}
    case = case_of(points, [member(f"m{n}", f"p{n}", f"p{n + 1}") for n in range(3)])
    push = np.array([0.36, 0.48, 0.8]) * 50
    pushes = pushes_of(case, {"p0": push, "p3": -push}, {"p0": -push, "p3": push}, gauge=even_gauge(case))
    found = alphas(case, bars_of(case, SIZE), pushes)
    # The bow is even about the middle, so the mean turn of evenly placed points is that of the chord.
    assert 50 * found[0, 0] == pytest.approx(np.pi**2 * 2e5 * 2e4 / 1000**2, rel=1e-6)
    assert np.isinf(found[0, 1])


@pytest.mark.parametrize("seed", range(3))
def test_only_the_chosen_are_found(seed):
    """`where` picks loads and designs; a plan and the proof agree with them."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case, designs=2), random_pushes(rng, case, loads=3)
    response = solve(case, layout, bars, pushes)
    ready = plan_buckling(case, layout, pushes)
    every = critical_multiplier(case, layout, bars, pushes, response, ready)
    where = rng.random(every.shape) < 0.5
    some = critical_multiplier(case, layout, bars, pushes, response, ready, where)
    assert np.isnan(some[~where]).all()
    assert some[where] == pytest.approx(every[where], rel=1e-9)
    middle = float(np.median(every))
    proof = at_least(case, layout, bars, pushes, response, middle * 1.0001, ready)
    assert proof.tolist() == (every > middle * 1.0001).tolist()


def test_stability_functions_at_no_load():
    """Without axial force: EI/L and 3 EI/(L (1 + phi)); with one ball end 3 EI/(L (1 + phi/4))."""
    ei, ga, length = 7.0, 0.3, 2.0
    phi = 12 * ei / (ga * length**2)
    yes, no = np.array(True), np.array(False)
    for force in (0.0, 1e-9, -1e-9):
        even, odd = bending(np.array(force), np.array(ei), np.array(ga), np.array(length), no, yes)
        assert (even, odd) == pytest.approx((ei / length, 3 * ei / (length * (1 + phi))), rel=1e-6)
        _, one = bending(np.array(force), np.array(ei), np.array(ga), np.array(length), yes, no)
        assert one == pytest.approx(3 * ei / (length * (1 + phi / 4)), rel=1e-6)


def test_series_and_closed_form_meet():
    """h(w) by its series and by its closed form agree where one takes over from the other."""
    w = np.array([-0.0499999, -0.0500001, 0.0499999, 0.0500001])
    values = curve(w)
    root = np.sqrt(np.abs(w))
    exact = (1 - np.where(w > 0, root / np.tan(root), root / np.tanh(root))) / w
    assert values == pytest.approx(exact, rel=1e-12)


def test_poles():
    """Clamped, clamped-pinned and pinned members between resting ends; shear lowers by P/(1 + P/GA)."""
    ei, length = np.array(5.0), np.array(3.0)
    yes, no = np.array(True), np.array(False)
    stiff = np.array(np.inf)
    assert first_pole(ei, stiff, length, no, yes) == pytest.approx(4 * np.pi**2 * 5 / 9)
    assert first_pole(ei, stiff, length, no, no) == pytest.approx(np.pi**2 * 5 / 9)
    assert first_pole(ei, stiff, length, yes, no) == pytest.approx(20.190729 * 5 / 9, rel=1e-7)
    euler = np.pi**2 * 5 / 9
    assert first_pole(ei, np.array(2.0), length, no, no) == pytest.approx(euler / (1 + euler / 2))
    # At its pole the stiffness at the far end of a clamped-pinned member with shear turns over.
    pole = first_pole(ei, np.array(2.0), length, yes, no)
    below, above = (bending(pole * k, ei, np.array(2.0), length, yes, no)[1] for k in (1 - 1e-6, 1 + 1e-6))
    assert below < -1e3
    assert above > 1e3


def test_far_multipliers_count_as_none(monkeypatch):
    """A multiplier beyond the limit is reported as none at all."""
    case = case_of({"a": (0, 0, 0), "b": (500, 0, 0)}, [member("m", "a", "b")], {"a": ALL})
    monkeypatch.setattr(buckling, "FAR", 100.0)
    found = alphas(case, bars_of(case, SIZE), pushes_of(case, {"b": (-1, 0, 0)}))
    assert np.isinf(found).all()


def test_large_frames_by_their_band(monkeypatch):
    """The banded proof gives the multipliers of the dense one."""
    rng = np.random.default_rng(4)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=2)
    dense = alphas(case, bars, pushes)
    monkeypatch.setattr(buckling, "LARGE", 0)
    assert alphas(case, bars, pushes) == pytest.approx(dense, rel=3e-5)


def test_large_free_body(monkeypatch):
    """Held at six far freedoms, a free bar pressed at its ends still buckles as between pins."""
    points = {f"p{n}": (x, 30, 20) for n, x in enumerate((0, 350, 650, 1000))}
    case = case_of(points, [member(f"m{n}", f"p{n}", f"p{n + 1}") for n in range(3)])
    pushes = pushes_of(case, {"p0": (70, 0, 0), "p3": (-70, 0, 0)}, gauge=even_gauge(case))
    monkeypatch.setattr(buckling, "LARGE", 0)
    assert 70 * alphas(case, bars_of(case, SIZE), pushes)[0, 0] == pytest.approx(
        np.pi**2 * 2e5 * 2e4 / 1000**2, rel=3e-5
    )


@pytest.mark.parametrize("seed", range(12))
def test_trial_shapes_bound_from_above(seed):
    """Ritz: no set of shapes finds a multiplier below the true one, and a grown set comes close to it."""
    rng = np.random.default_rng(100 + seed)
    case = random_case(rng, count=int(rng.integers(9, 14)))
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=4)
    response = solve(case, layout, bars, pushes)
    ready = plan_buckling(case, layout, pushes)
    softening, here = Softening.of(layout, ready.links, bars, 1), np.zeros(4, dtype=np.intp)
    bound = upper_bounds(ready, softening, here, compression(response)[0])
    for load, high in enumerate(bound):
        one = attrs.evolve(response, forces=response.forces[:, load : load + 1])
        assert not at_least(case, layout, bars, pushes, one, high * (1 + 1e-5), ready).any()
    # From below, apart from the bound: nothing buckles just under the multiplier.
    found = critical_multiplier(case, layout, bars, pushes, response, ready)[0]
    assert np.all(found <= bound * (1 + 1e-12))
    for load, alpha in enumerate(found):
        one = attrs.evolve(response, forces=response.forces[:, load : load + 1])
        assert at_least(case, layout, bars, pushes, one, alpha * (1 - 3e-5), ready).all()


def test_bounds_of_a_free_vehicle():
    """The trike on thin braces, close to their own poles: round-off makes no shapes that cannot be.

    Each bound is the multiplier, alone as among other loads of other designs; left and right loads of the
    symmetric vehicle have the same.
    """
    file = typed_case(cases_folder() / "bracken-revised" / "case.toml")
    sizes = ("tube 10 x 1 mm", "tube 10 x 1.5 mm", "tube 10 x 2 mm")
    cases = [file.changed_case([Edit(("members", "brace", "left", "section"), size)]) for size in sizes]
    ready = prepare(cases[0])
    layout, plan = ready.layout, ready.buckling
    bars = rebuilt(ready.bars, ready.case.basis, sizes_of([shapes_of(case) for case in cases]))
    response = solve(ready.case, layout, bars, ready.pushes)
    softening, push = Softening.of(layout, plan.links, bars, 3), compression(response)
    loads = [n for n, name in enumerate(ready.load_names) if "pothole" in name]
    assert len(loads) == 2
    here = np.repeat(np.arange(3), 2)
    bound = upper_bounds(plan, softening, here, push[:, loads].reshape(6, -1)).reshape(3, 2)
    for design in range(3):
        for n, load in enumerate(loads):
            alone = upper_bounds(plan, softening, np.array([design]), push[design, [load]])
            assert alone[0] == pytest.approx(bound[design, n], rel=1e-12)
    found = critical_multiplier(ready.case, layout, bars, ready.pushes, response, plan)[:, loads]
    assert found == pytest.approx(bound, rel=1e-12)
    assert found[:, 0] == pytest.approx(found[:, 1], rel=1e-9)
    for share, standing in ((1 - 1e-7, True), (1 + 1e-7, False)):
        coefficient = softening.under(here, share * found.reshape(-1, 1) * push[:, loads].reshape(6, -1))
        assert stands(plan, coefficient).tolist() == [standing] * 6
