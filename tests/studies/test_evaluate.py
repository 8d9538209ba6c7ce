"""Designs evaluated together come out as each does by itself: every part, kind and load."""

import attrs
import numpy as np
import pytest

from strength.case import case_from_text
from strength.case.model import Case
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.frame_buckling import PART
from strength.errors import StrengthError
from strength.library.data import cases_folder
from strength.run import Outcome, run
from strength.sections import sizes_of
from strength.studies.evaluate import evaluate, evaluate_sizes, shapes_of
from strength.studies.evaluated import Evaluated
from strength.studies.prepared import prepare
from strength.studies.typed import Edit, case_typed, typed_case
from tests.second_way.random_cases import frame
from tests.studies.cases import CRANE

CLOSE = 1e-12  # of the greatest utilisation of the design


def same(found: Evaluated, design: int, alone: Outcome) -> None:
    """The evaluation of one design has the rows that a run of it alone has."""
    rows: dict[tuple[str, str], list[tuple[float, str, bool]]] = {}
    for row in alone.rows:
        rows.setdefault((row.part, row.kind), []).append((row.utilisation, row.load, row.in_range))
    greatest = alone.rows[0].utilisation
    told = {name: n for n, name in enumerate(found.names)}
    for name, own in rows.items():
        if name[0] == PART:
            continue  # left out where it cannot govern; told apart below
        n = told[name]
        assert found.utilisation[design, n] == pytest.approx(
            max(each[0] for each in own), abs=CLOSE * greatest
        ), name
        assert found.covered[design, n] == all(each[2] for each in own), name
    for name, n in told.items():
        if name not in rows:
            assert found.utilisation[design, n] <= 0.0, name
    assert found.worst[design] == pytest.approx(greatest, rel=CLOSE)
    part, kind, load = found.governs(design).split("/")
    assert any(
        (row.part, row.kind, row.load) == (part, kind, load)
        for row in alone.rows
        if row.utilisation > greatest * (1.0 - CLOSE)
    )


SECTIONS = {
    # walls and diameters, thinner than the braces' and thicker than the host stands
    "post": (
        "tube 42 x 3 mm",
        "tube 30 x 1.5 mm",
        "tube 60 x 4 mm",
        "tube 42 x 1.5 mm",
        "tube 33.7 x 2.6 mm",
    ),
    "arm": ("square 30 x 2 mm", "square 50 x 3 mm", "box 40 x 20 x 2 mm", "box 20 x 40 x 2 mm"),
    "brace": ("tube 18 x 1.5 mm", "tube 25 x 2 mm", "tube 10 x 1 mm", "tube 30 x 3 mm"),
}


@pytest.mark.parametrize("member", SECTIONS)
@pytest.mark.parametrize("method", ["allowable", "limit-state"])
def test_sections_of_the_crane(member: str, method: str) -> None:
    """Sizes that move insets, legs and heat-affected lengths; some that cannot be built."""
    file = case_typed(CRANE + f'[basis]\nmethod = "{method}"\n')
    cases = [file.changed_case([Edit(("members", member, "section"), size)]) for size in SECTIONS[member]]
    found = evaluate(cases)
    for n, case in enumerate(cases):
        if n in found.failed:
            with pytest.raises(StrengthError) as told:
                run(case)
            assert str(told.value) == found.failed[n]
            assert np.isnan(found.worst[n])
        else:
            same(found, n, run(case))


def test_other_changes_of_the_crane() -> None:
    """Flats, bolts, legs, metals, places and loads."""
    file = case_typed(CRANE)
    edits = (
        Edit(("brackets", "lug", "plate"), "flat 40 x 3 mm"),
        Edit(("brackets", "lug", "plate"), "flat 40 x 10 mm"),
        Edit(("brackets", "lug", "eye"), "M12"),
        Edit(("change",), {"part": "weld brace-to", "leg": "3.5 mm"}),
        Edit(("members", "arm", "material"), "S355J2H"),
        Edit(("members", "arm", "material"), "6082-T6"),  # refused: steel welded to aluminium
        Edit(("points", "knee"), "190 0 400 mm"),
        Edit(("loads", "knock", "forces"), [{"at": "tip", "force": "100 -460 130 N"}]),
        Edit(("supports", "foot"), "x y z rx rz"),
    )
    cases = []
    for edit in edits:
        try:
            cases.append(file.changed_case([edit]))
        except StrengthError:
            assert edit.value == "6082-T6"
    found = evaluate(cases)
    assert not found.failed
    for n, case in enumerate(cases):
        same(found, n, run(case))


@pytest.mark.parametrize(
    ("way", "size"),
    [
        (("wishbones", "lower", "left", "tube"), "tube 28 x 2 mm"),
        (("wishbones", "lower", "left", "spreader_tube"), "square 20 x 1.5 mm"),
        (("knuckles", "knuckle", "left", "plate"), "flat 60 x 16 mm"),
        (("knuckles", "knuckle", "left", "axle"), "bar 17 mm"),
        (("members", "shelf", "left", "section"), "square 40 x 3 mm"),
        (("wishbones", "upper", "left", "pivot"), "rod end M10"),
        (("masses", "tools", "mass"), "61 kg"),
    ],
)
def test_the_trike(way: tuple[str, ...], size: str) -> None:
    """A free vehicle: trade parts, both sides; each design beside the case as it stands."""
    file = typed_case(cases_folder() / "bracken" / "case.toml")
    cases = [file.case, file.changed_case([Edit(way, size)])]
    found = evaluate(cases)
    assert not found.failed
    same(found, 1, run(cases[1]))


def plain(value: object) -> object:
    """A value with Python's own numbers in place of numpy's."""
    if attrs.has(type(value)):
        fields = attrs.fields(type(value))
        return attrs.evolve(value, **{f.name: plain(getattr(value, f.name)) for f in fields})
    if isinstance(value, tuple):
        return tuple(map(plain, value))
    return value.item() if isinstance(value, np.generic) else value


def resized(case: Case, rng: np.random.Generator) -> Case:
    """The case with every section a little larger or smaller, each by another factor."""

    def other(part: object) -> object:
        f, g = rng.uniform(0.8, 1.25, 2)
        match part.shape:  # type: ignore[attr-defined]
            case Tube(od=od, wall=wall):
                shape = Tube(od * f, wall * g)
            case Bar(diameter=diameter):
                shape = Bar(diameter * f)
            case Box(depth=depth, width=width, wall=wall):
                shape = Box(depth * f, width * g, wall * f)
            case Flat(width=width, thickness=thickness):
                shape = Flat(width * f, thickness * g)
            case kept:
                shape = kept
        return attrs.evolve(part, shape=shape)

    return plain(
        attrs.evolve(case, members=tuple(map(other, case.members)), struts=tuple(map(other, case.struts)))
    )


@pytest.mark.parametrize("seed", range(6))
def test_random_frames(seed: int) -> None:
    """Frames with releases, rigid parts and struts, all sizes varied at once."""
    case = plain(frame(seed))
    rng = np.random.default_rng(1000 + seed)
    cases = [resized(case, rng) for _ in range(5)]
    found = evaluate(cases)
    by_sizes = evaluate_sizes(prepare(case), sizes_of([shapes_of(each) for each in cases]))
    assert not found.failed
    assert np.array_equal(found.utilisation, by_sizes.utilisation)
    for n, each in enumerate(cases):
        same(found, n, run(each))


def slender(thickness: float) -> str:
    """A slim upright, held at its foot, under a weight: what governs is how near it is to buckling."""
    return (
        'title = "Bracken flagpole"\n[defaults]\nmaterial = {tube = "E235+N"}\nfiller = "ER70S-6"\n'
        f'[members]\npole = {{from = "0 0 0 mm", to = "0 0 2600 mm", section = "tube 30 x {thickness} mm"}}\n'
        '[supports]\npole-from = "all"\n'
        '[loads]\nflag = {forces = [{at = "pole-to", force = "9 4 -150 N"}]}\n'
        'calm = {forces = [{at = "pole-to", force = "0 0 -40 N"}]}\n'
    )


def test_frame_buckling_governs() -> None:
    """Multipliers under 10 amplify; where little else is asked, frame buckling is the worst row."""
    cases = [case_from_text(slender(wall)) for wall in (1.0, 2.0, 4.0)]
    found = evaluate(cases)
    for n, case in enumerate(cases):
        alone = run(case)
        same(found, n, alone)
        frame_row = max(row.utilisation for row in alone.rows if row.part == PART)
        assert found.utilisation[n, found.names.index((PART, "frame-buckling"))] in (
            pytest.approx(frame_row, rel=1e-9),
            0.0,
        )


def test_one_that_fails_leaves_the_others() -> None:
    """A load that nothing can carry is told for its own design."""
    good = slender(2.0)
    cases = [
        case_from_text(good),
        case_from_text(good.replace("9 4 -150 N", "9 4 -150000 N")),
        case_from_text(good.replace('pole-from = "all"', 'pole-from = "x y z rx ry"')),
        case_from_text(good.replace("30 x 2.0", "30 x 3.0")),
    ]
    found = evaluate(cases)
    assert set(found.failed) <= {2}
    same(found, 3, run(cases[3]))
