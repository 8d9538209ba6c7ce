"""Starter cases: every set of sensible answers makes a case that reads, stands and can be checked."""

import itertools
import tomllib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case import Case, case_from_text
from strength.case.starter import KINDS, Answers, answered, starter
from strength.case.starter.questions import asked_of
from strength.cli import ANSWERS
from strength.errors import AnswerError
from strength.frame.layout import lay_out
from strength.frame.solve import solve
from strength.sections import measure
from strength.vehicle import balance, into_structure, missing_kinds

RANGES = {  # what the program says is sensible: least, most, unit
    "lean": (0.0, 40.0, "deg"),
    "track": (500.0, 1200.0, "mm"),
    "wheelbase": (900.0, 2000.0, "mm"),
    "wheel-radius": (150.0, 370.0, "mm"),
    "rider": (30.0, 150.0, "kg"),
    "saddle": (200.0, 800.0, "mm"),
    "cargo": (0.0, 200.0, "kg"),
    "own": (8.0, 100.0, "kg"),
    "on-wheel": (5.0, 200.0, "kg"),
}
METALS = ("S235JR", "6082-T651")


def keys_of(what: str) -> set[str]:
    """The keys of the questions that a kind is asked."""
    return {question.key for question in asked_of(what)}


def made(texts: dict[str, str]) -> Case:
    """The case of these answers; what a kind is not asked is left out."""
    wanted = keys_of(texts["what"]) | {"what"}
    answers = answered({key: text for key, text in texts.items() if key in wanted})
    return case_from_text(starter(answers), "starter")


def stands(case: Case) -> None:
    """In balance and no mechanism: both are errors if not so. Every load moves something, a little."""
    loads = balance(case)
    response = solve(case, lay_out(case), measure(case), into_structure(case, loads))
    moved = np.abs(response.displacements[0, :, :, :3]).max(axis=(1, 2))  # per load
    assert np.all(moved > 0.0)
    assert np.all(moved < 2000.0)


CORNERS = list(
    itertools.product(("500 mm", "830 mm", "1200 mm"), ("900 mm", "2000 mm"), ("150 mm", "370 mm"))
)
GRID = [
    {
        "what": what,
        "track": track,
        "wheelbase": base,
        "wheel-radius": radius,
        "lean": lean,
        "plate-metal": metal,
    }
    for what in KINDS
    for number, (track, base, radius) in enumerate(CORNERS)
    for lean, metal in [
        (("0 deg", METALS[number % 2]), ("31 deg", METALS[1 - number % 2]))[(number // 2) % 2]
    ]
    if what in ("trike", "cart") or base == "900 mm"
]


@pytest.mark.parametrize("texts", GRID, ids=lambda texts: " ".join(texts.values()))
def test_corners_stand(texts: dict[str, str]) -> None:
    """The least and the greatest track, wheelbase and wheel make no mechanism."""
    stands(made(texts))


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("lean", ["0 deg", "17 deg"])
@pytest.mark.parametrize("what", KINDS)
def test_kinds_stand(what: str, lean: str, metal: str) -> None:
    """Each kind, leaning or not, in steel and in aluminium."""
    case = made({"what": what, "lean": lean, "plate-metal": metal})
    stands(case)
    assert (case.leaning > 0.0) == (what == "trike" and lean != "0 deg")
    assert metal in case.metals or "plate-metal" not in keys_of(what)


@st.composite
def sensible(draw: st.DrawFn) -> dict[str, str]:
    """Answers anywhere in their ranges."""
    texts = {
        "what": draw(st.sampled_from(KINDS)),
        "process": draw(st.sampled_from(("mig", "stick", "braze"))),
    }
    for key, (least, most, unit) in RANGES.items():
        texts[key] = f"{draw(st.floats(least, most)):.5f} {unit}"
    side = draw(st.sampled_from((15, 22, 40, 60)))
    texts["tube"] = draw(st.sampled_from((f"square {side} x 1.5 mm", f"box {side} x 38 x 2 mm")))
    if texts["what"] != "cart":
        texts["tube"] = draw(st.sampled_from((f"tube {side} x 1.2 mm", texts["tube"])))
    texts["axle"] = f"bar {draw(st.integers(10, 25))} mm"
    texts["plate"] = f"flat {draw(st.integers(50, 120))} x {draw(st.integers(7, 30))} mm"
    texts["plate-metal"] = draw(st.sampled_from((*METALS, "S355J2", "1.4301")))
    return texts


@settings(max_examples=25, deadline=None)
@given(sensible())
def test_any_sensible_answers_stand(texts: dict[str, str]) -> None:
    """Answers in range never make a file with faults, or a structure that can move."""
    stands(made(texts))


def test_trike_is_complete() -> None:
    """Both sides of a double-wishbone front end, and each kind of load a builder must not forget."""
    case = made({"what": "trike"})
    members, struts = {m.name for m in case.members}, {s.name for s in case.struts}
    for side in ("left", "right"):
        assert {f"{w}-{leg}.{side}" for w in ("lower", "upper") for leg in ("front", "rear")} <= members
        assert {f"{part}.{side}" for part in ("knuckle", "knuckle-axle", "caliper", "steer")} <= members
        assert {f"shock.{side}", f"tie-rod.{side}"} <= struts
    assert [wheel.name for wheel in case.wheels if wheel.braked] == ["front.left", "front.right"]
    assert missing_kinds(case) == ()
    assert any(load.braking and load.cornering for load in case.loads)
    assert any(load.strike and load.strike.inward for load in case.loads)


def test_places_follow_the_answers() -> None:
    """Wheels stand at half the track, one wheelbase and one radius, masses weigh what was said."""
    case = made(
        {"what": "trike", "track": "37 in", "wheelbase": "1.31 m", "wheel-radius": "305 mm", "own": "30 kg"}
    )
    at = {point.name: point.at for point in case.points}
    assert at["front-hub.left"] == pytest.approx((0.0, 37 * 25.4 / 2, 305.0), abs=0.51)
    assert at["rear-hub"] == pytest.approx((-1310.0, 0.0, 305.0), abs=0.51)
    own = [mass.mass for mass in case.masses if mass.name not in ("rider", "cargo")]
    assert sum(own) == pytest.approx(30.0)


def test_no_cargo_is_no_mass() -> None:
    """0 kg leaves the cargo out."""
    assert "cargo" not in {mass.name for mass in made({"what": "trike", "cargo": "0 kg"}).masses}


@pytest.mark.parametrize("what", KINDS)
def test_file_says_what_to_measure(what: str) -> None:
    """First the schema for editors, then the rules as a choice; every place line has its comment nearby."""
    text = starter(answered({"what": what}))
    lines = text.splitlines()
    assert lines[0] == "#:schema ./strength.schema.json"
    assert "designer's choice" in text.replace("\n# ", " ")
    assert max(len(line) for line in lines if line.startswith(("#", "["))) <= 120
    assert max(len(line.partition("  # ")[2]) for line in lines if not line.startswith("[")) <= 80
    assert sum("  # " in line for line in lines) >= 12
    assert "$" not in text
    assert tomllib.loads(text)["title"].startswith("My ")


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"track": "780"}, "--track: '780' has no unit: write a length such as '25 mm'"),
        ({"track": "3 m"}, "--track: '3 m' is out of the sensible range: 500 to 1200 mm"),
        ({"rider": "20 kg"}, "--rider: '20 kg' is out of the sensible range: 30 to 150 kg"),
        ({"lean": "50 deg"}, "--lean: '50 deg' is out of the sensible range: 0 to 40 deg"),
        ({"axle": "tube 20 x 2 mm"}, "--axle: 'tube 20 x 2 mm' is no bar: write for instance 'bar 20 mm'"),
        (
            {"tube": "tube 10 x 1 mm"},
            "--tube: 'tube 10 x 1 mm' is out of the sensible range: 15 to 60 mm across",
        ),
        (
            {"tube": "tube 25 x 0.5 mm"},
            "--tube: 'tube 25 x 0.5 mm' is out of the sensible range: a wall of 1 mm and up",
        ),
        (
            {"tube": "bar 20 mm"},
            "--tube: 'bar 20 mm' is no tube: write 'tube 25 x 2 mm' or 'square 30 x 2 mm'",
        ),
        (
            {"plate": "flat 40 x 12 mm"},
            "--plate: 'flat 40 x 12 mm' is out of the sensible range: 50 to 120 mm wide, 4 to 30 mm thick",
        ),
        (
            {"axle": "bar 30 mm", "plate": "flat 50 x 12 mm"},
            "--axle: 'bar 30 mm' is more than half as thick as the plate is wide (50 mm): take a wider plate",
        ),
        ({"what": "wagon"}, "--what: 'wagon' is none of trike, cart, arm, plate"),
        ({"process": "tigg"}, "--process: 'tigg' is none of mig, tig, stick, braze; did you mean 'tig'?"),
        ({"what": "cart", "lean": "5 deg"}, "--lean: is not asked of a cart, only of trike: leave it out"),
        (
            {"what": "arm", "cargo": "5 kg"},
            "--cargo: is not asked of an arm, only of trike and cart: leave it out",
        ),
    ],
)
def test_wrong_answers(texts: dict[str, str], said: str) -> None:
    """One message that names the option, what is wrong and what to write."""
    with pytest.raises(AnswerError) as caught:
        answered(texts)
    assert str(caught.value) == said


def test_metal_that_is_not_held() -> None:
    """An unknown metal is answered with its nearest; a thickness it is not held for with the ranges."""
    with pytest.raises(AnswerError, match="6082-T651"):
        answered({"plate-metal": "6082-T561"})
    with pytest.raises(AnswerError, match=r"--plate-metal: .*over .* mm: take another thickness or metal"):
        answered({"plate-metal": "6061-T651", "plate": "flat 70 x 16 mm"})


def test_options_and_questions_are_the_same() -> None:
    """The command's options are the questions, and the examples they show can be answered."""
    assert list(ANSWERS) == ["what", *(key for key in ANSWERS if key != "what")]
    assert set(ANSWERS) == {"what"} | {key for what in KINDS for key in keys_of(what)}
    example = {key: typed.strip("'") for key, (typed, _) in ANSWERS.items() if key in keys_of("trike")}
    assert isinstance(answered(example), Answers)
