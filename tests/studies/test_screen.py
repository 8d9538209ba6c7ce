"""Screening: which sizes are tried, what is typed for them, and that the figures are the case's own."""

from collections.abc import Sequence
from math import pi
from typing import Any

import pytest

from strength.case.model import Case
from strength.errors import CaseError, StrengthError
from strength.library.data import cases_folder
from strength.run import run
from strength.studies import screened
from strength.studies.candidates import between
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.screen import Wanted, leg, screen, thickness
from strength.studies.screened import Screened
from strength.studies.typed import TypedCase, case_typed, typed_case
from tests.studies.cases import CRANE

STEEL = 7.85e-6  # kg/mm^3, EN 1993-1-1 3.2.6


def trike() -> TypedCase:
    """The demo as it stands."""
    return typed_case(cases_folder() / "bracken-revised" / "case.toml")


def agrees(file: TypedCase, found: Screened, number: int) -> Case:
    """One candidate gives what a run of the changed file gives; returns the changed case."""
    each = found.candidates[number]
    case = file.changed_case(each.edits)
    alone = run(case)
    assert each.utilisation == pytest.approx(alone.rows[0].utilisation, rel=1e-12)
    assert each.passes == (alone.rows[0].utilisation <= 1.0 + 1e-9)
    named = next(row for row in alone.rows if row.id == each.governs)
    assert named.utilisation == pytest.approx(each.utilisation, rel=1e-12)
    assert each.in_range == all(row.in_range for row in alone.rows)
    return case


def test_the_size_it_has_is_not_evaluated_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """It stands among the others with the figures of the case as it is, and all designs are told as done."""
    counts, done = [], []

    def counted(cases: Sequence[Case], **more: Any) -> Evaluated:
        counts.append(len(cases))
        return evaluate(cases, **more)

    monkeypatch.setattr(screened, "evaluate", counted)
    wanted = Wanted(od=between("20 .. 25 mm"), wall=between("1.5 mm"))
    found = screen(case_typed(CRANE), ["brace"], wanted, run=screened.Run(step=done.append))
    assert (len(found.candidates), counts, sum(done)) == (3, [3], 4)  # two other sizes, and the case as it is
    own = next(each for each in found.candidates if each.size == found.now)
    assert (own.utilisation, own.mass, own.governs) == (
        found.utilisation_now,
        found.mass_now,
        found.governs_now,
    )
    agrees(case_typed(CRANE), found, found.candidates.index(own))


def test_tubes_of_the_crane() -> None:
    """Every tube that is sold in E235, lightest first; the mass is that of all members, by hand."""
    file = case_typed(CRANE)
    found = screen(file, ["brace"], Wanted(od=between("15 .. 25 mm"), wall=between("1.5 mm")))
    assert [each.size for each in found.candidates] == [
        f"tube {od} x 1.5 mm" for od in (15, 16, 18, 20, 22, 25)
    ]
    assert found.now == "tube 22 x 1.5 mm"
    mass = {
        "post": pi * 3.0 * 39.0 * 520.0,
        "arm": (2 * 2 * (30 + 30 - 4) - (4 - pi) * (4.0**2 - 2.0**2)) * 430.0,  # EN 10219-2 Annex B
        "stay": pi * 1.5 * 16.5 * (210.0**2 + 120.0**2) ** 0.5,
        "pin": pi * 64.0 * 35.0,
        "lug": 40.0 * 6.0 * 70.0,
    }
    for number, od in enumerate((15.0, 16.0, 18.0, 20.0, 22.0, 25.0)):
        brace = pi * 1.5 * (od - 1.5) * (210.0**2 + 250.0**2) ** 0.5
        assert found.candidates[number].mass == pytest.approx(STEEL * (sum(mass.values()) + brace), rel=1e-12)
        agrees(file, found, number)
    steps = [each.step_up for each in found.candidates]
    assert steps[-1] is None
    assert steps[0] == pytest.approx(found.candidates[1].mass - found.candidates[0].mass, rel=1e-9)


def test_lightest_is_the_first_that_passes() -> None:
    """With twice the load on the hook thin tubes fail and thick ones pass."""
    file = case_typed(CRANE.replace("90 55 -680 N", "180 110 -1360 N"))
    found = screen(file, ["arm"], Wanted())
    over = [each.utilisation > 1.0 for each in found.candidates]
    assert any(over)
    assert not all(over)
    assert found.lightest is found.candidates[over.index(False)]
    assert all(a.mass <= b.mass for a, b in zip(found.candidates, found.candidates[1:], strict=False))


def test_softer_arms_load_their_neighbours() -> None:
    """What governs may be another part than the one that is screened."""
    file = case_typed(CRANE)
    found = screen(file, ["stay"], Wanted(wall=between("1 mm")))
    assert {each.governs.split("/")[0] for each in found.candidates} - {"stay"}


def test_with_and_material() -> None:
    """Another member takes the same size, and both another metal, in the sizes that is sold in."""
    file = case_typed(CRANE)
    wanted = Wanted(od=between("1 in"), material="4130N", sharing=("stay",))
    found = screen(file, ["brace"], wanted)
    assert "tube 1 x 0.049 in" in [each.size for each in found.candidates]
    number = [each.size for each in found.candidates].index("tube 1 x 0.049 in")
    case = agrees(file, found, number)
    own = {member.name: member for member in case.members}
    assert own["brace"].shape == own["stay"].shape
    assert own["brace"].shape.od == pytest.approx(25.4)
    assert (own["brace"].material, own["stay"].material, own["post"].material) == ("4130N", "4130N", "E235+N")


def test_several_members_are_combined() -> None:
    """Sizes of two members: every combination, lightest first."""
    file = case_typed(CRANE)
    found = screen(file, ["brace", "stay"], Wanted(od=between("18 .. 20 mm"), wall=between("1 .. 1.5 mm")))
    assert len(found.candidates) == 16
    number = [each.size for each in found.candidates].index("tube 18 x 1 mm; tube 20 x 1.5 mm")
    case = agrees(file, found, number)
    shapes = {member.name: member.shape for member in case.members}
    assert (shapes["brace"].od, shapes["brace"].wall) == (18.0, 1.0)
    assert (shapes["stay"].od, shapes["stay"].wall) == (20.0, 1.5)
    with pytest.raises(CaseError, match="combinations are too many"):
        screen(file, ["brace", "stay", "post"], Wanted())


@pytest.mark.parametrize(
    ("name", "way", "size"),
    [
        ("lower-front.left", ("wishbones", "lower", "left", "tube"), "tube 32 x 2.5 mm"),
        ("lower-rear.right", ("wishbones", "lower", "left", "rear_tube"), "tube 32 x 2.5 mm"),
        ("knuckle-axle.left", ("knuckles", "knuckle", "left", "axle"), "bar 25 mm"),
        ("tie-rod.left", ("struts", "tie-rod", "left", "section"), "tube 16 x 2 mm"),
        ("lower-front-pivot.left", ("wishbones", "lower", "left", "pivot"), "M14"),
    ],
)
def test_trade_parts_of_the_trike(name: str, way: tuple[str, ...], size: str) -> None:
    """What is typed changes, also for a part of the other side; both sides follow."""
    file = trike()
    diameter = size.split()[1] + " mm" if " " in size else size[1:] + " mm"
    found = screen(file, [name], Wanted(od=between(diameter)))
    number = [each.size for each in found.candidates].index(size)
    assert found.candidates[number].edits[0].way == way
    agrees(file, found, number)


def test_thickness_of_the_knuckle() -> None:
    """Plates of the metal's own list, the width as typed; places of the knuckle move with its plate."""
    file = trike()
    found = thickness(file, "knuckle.left", Wanted(wall=between("10 .. 16 mm")))
    width = found.now.split()[1]
    assert [each.size for each in found.candidates] == [f"flat {width} x {t} mm" for t in (10, 12, 15, 16)]
    agrees(file, found, 1)
    with pytest.raises(CaseError, match="is not a flat"):
        thickness(file, "brace.left", Wanted())


def test_legs() -> None:
    """The least leg that passes by the line method; a wall of 1.5 mm bears a leg of 2 mm."""
    file = case_typed(CRANE)
    found = leg(file, "brace-to")
    sizes = [each.size for each in found.candidates]
    assert sizes == ["1 mm", "1.5 mm", "2 mm", "2.5 mm", "3 mm"]
    assert (found.now, found.greatest_sensible) == ("1.5 mm", "2 mm")
    assert [each.sensible for each in found.candidates] == [True, True, True, False, False]
    throats = []
    for number in range(len(sizes)):
        case = agrees(file, found, number)
        assert next(weld.leg for weld in case.welds if weld.name == "brace-to") == 1.0 + 0.5 * number
        throats.append(
            max(row.utilisation for row in run(case).rows if row.id.startswith("brace-to/weld-th"))
        )
    # the throat's stress goes with 1/leg, the forces do not change
    assert throats[0] / throats[2] == pytest.approx(2.0, rel=1e-9)


def test_bolts_keep_the_clearance_of_their_holes() -> None:
    """A bolt typed with plates: a larger one has larger holes."""
    text = CRANE + (
        '[bolts]\nclevis = {member = "guy", end = "to", axis = "0 0 1", size = "M8", '
        "shear_planes = 2, plates = ["
        '{thickness = "8 mm", material = "S235JR", edge = "22 mm", hole = "8.4 mm"}, '
        '{thickness = "4 mm", material = "S235JR", edge = "22 mm", hole = "8.4 mm"}]}\n'
    )
    file = case_typed(text)
    found = screen(file, ["clevis"], Wanted(od=between("6 .. 12 mm")))
    assert [each.size for each in found.candidates] == ["M6", "M8", "M10", "M12"]
    case = agrees(file, found, 2)
    assert [plate.hole for plate in case.bolts[-1].plates] == pytest.approx([10.4, 10.4])


def test_changes_are_changed() -> None:
    """A size that a change block gives is changed there."""
    text = CRANE + '[[change]]\npart = "member brace"\nsection = "tube 25 x 1.5 mm"\n'
    file = case_typed(text)
    found = screen(file, ["brace"], Wanted(od=between("28 mm"), wall=between("2 mm")))
    assert found.now == "tube 25 x 1.5 mm"
    assert found.candidates[0].edits[0].way == ("change", 0, "section")
    agrees(file, found, 0)


def test_what_cannot_be_built_is_told() -> None:
    """A brace wider than its host: refused with the reason, the others evaluated."""
    file = case_typed(CRANE)
    found = screen(file, ["stay"], Wanted(od=between("38 .. 50 mm"), wall=between("2 mm")))
    assert [size for size, _ in found.refused] == ["tube 45 x 2 mm", "tube 50 x 2 mm"]
    assert all("misses post" in why for _, why in found.refused)
    for size, _ in found.refused:
        with pytest.raises(StrengthError):
            run(case_typed(CRANE.replace("tube 18 x 1.5 mm", size)).case)


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("bracee", "did you mean 'brace'"),
        ("guy-to", "no member or strut or bolt or stud is named 'guy-to'"),
    ],
)
def test_wrong_names(name: str, why: str) -> None:
    """The nearest name is told."""
    with pytest.raises(CaseError, match=why):
        screen(case_typed(CRANE), [name], Wanted())
