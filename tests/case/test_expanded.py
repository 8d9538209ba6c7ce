"""The case written out as plain entries: reads back to the same case, writes back to the same bytes."""

import tomllib
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength import units
from strength.case import case_from_text, read_case
from strength.case.expanded import expand_text
from strength.case.model import Case
from strength.case.writing import amount, figure, key, quoted

CASES = sorted(Path("cases").glob("*/case.toml"))
RICH = Path(__file__).with_name("rich-case.toml").read_text(encoding="utf-8")


def comparable(case: Case) -> dict[str, Any]:
    """All of a case but where it was read from and what was assumed."""
    found = {}
    for field in attrs.fields(Case):
        value = getattr(case, field.name)
        if isinstance(value, tuple):
            value = tuple(attrs.evolve(each, path="") if hasattr(each, "path") else each for each in value)
        if field.name not in ("data", "assumed"):
            found[field.name] = value
    return found


def test_a_rich_case_comes_back_to_the_last_bit() -> None:
    """A rich case comes back to the last bit."""
    first = case_from_text(RICH)
    text = expand_text(first, RICH)
    second = case_from_text(text)
    before, after = comparable(first), comparable(second)
    for name, value in before.items():
        assert after[name] == value, name
    assert expand_text(second, text) == text


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.parent.name)
def test_a_demo_case_comes_back_to_the_last_bit(path: Path) -> None:
    """A demo case comes back to the last bit."""
    first = read_case(path)
    text = expand_text(first, path.read_text(encoding="utf-8"))
    second = case_from_text(text)
    assert comparable(second) == comparable(first)
    assert expand_text(second, text) == text


def lines(text: str, table: str) -> dict[str, str]:
    """Lines of a table by the name they begin with."""
    part = text.partition(f"\n[{table}]\n")[2].partition("\n\n")[0]
    return {next(iter(tomllib.loads(line))): line for line in part.splitlines()}


def test_every_line_tells_what_made_it() -> None:
    """Every line tells what made it."""
    text = expand_text(case_from_text(RICH), RICH)
    members, welds, points = (lines(text, table) for table in ("members", "welds", "points"))
    assert "# wishbone lower.left" in members["lower-front.left"]
    assert "# wishbone lower.left, mirrored" in members["lower-front.right"]
    assert "# knuckle knuckle.left" in members["knuckle-axle.left"]
    assert "# bracket caliper.left" in members["caliper-step.left"]
    assert members["spine"].partition("}")[2] == "  # assumed: material"
    assert "# wishbone upper.left" in welds["upper-front-cup.left"]
    assert points["front-hub.left"].endswith("# wheel front.left")
    assert points["front-hub.right"].endswith("# wheel front.left, mirrored")
    assert points["boom-to"].endswith("# member boom")
    assert lines(text, "struts")["tie.right"].partition("}")[2] == "  # mirrored; assumed: material"
    assert lines(text, "loads")["kerb, right wheel"].endswith("# load kerb")


def test_a_line_tells_what_was_assumed() -> None:
    """A line tells what was assumed."""
    text = expand_text(case_from_text(RICH), RICH)
    assert "#" not in lines(text, "welds")["apex"]
    cup = lines(text, "welds")["upper-front-cup.left"].split("#")[-1]
    assert {"leg", "filler", "process", "quality"} <= set(cup.replace(",", " ").split())


def test_remarks_of_other_files_are_not_taken_over() -> None:
    """Remarks of other files are not taken over."""
    source = RICH.replace('rack = "-90.1 0 240.7 mm"', 'rack = "-90.1 0 240.7 mm"  # measured')
    assert "measured" not in expand_text(case_from_text(source), source)


def test_there_are_no_trade_parts_left() -> None:
    """There are no trade parts left."""
    file = tomllib.loads(expand_text(case_from_text(RICH), RICH))
    assert not {"wishbones", "knuckles", "brackets", "defaults", "change", "mirror"} & set(file)
    assert {"front.left", "front.right", "rear"} == set(file["wheels"])


def test_only_what_the_user_owns_is_written_as_a_metal() -> None:
    """Only what the user owns is written as a metal."""
    file = tomllib.loads(expand_text(case_from_text(RICH), RICH))
    assert set(file["material"]) == {"shed plate"}
    assert set(file["filler"]) == {"shed wire"}


@given(st.floats(allow_nan=False, allow_infinity=False, width=64))
def test_a_figure_reads_back_to_the_same_float(value: float) -> None:
    """As every float's shortest decimal does (Python's repr, Steele and White 1990)."""
    assert float(figure(value)) == value


@given(st.lists(st.floats(-1e6, 1e6), min_size=3, max_size=3))
def test_a_vector_reads_back_to_the_same_floats(values: list[float]) -> None:
    """A vector reads back to the same floats."""
    text = tomllib.loads(f"at = {amount(tuple(values), 'mm')}")["at"]
    assert units.vector(text, "length") == tuple(values)


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_any_text_and_name_reads_back(text: str) -> None:
    """TOML 1.0: every Unicode scalar value, control characters escaped."""
    assert tomllib.loads(f"a = {quoted(text)}")["a"] == text
    assert tomllib.loads(f"{key(text)} = 1") == {text: 1}
