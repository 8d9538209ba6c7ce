"""Laws of the reading: units, order, repeats, and that nothing but a CaseError comes of garbage."""

import re
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case import case_from_text
from strength.errors import CaseError
from tests.case.cases import BENCH, TRIKE, read
from tests.case.test_forms import without_paths
from tests.case.test_mirror import PARTS

WHOLE = TRIKE + PARTS
UNITS = {
    "mm": ("in", 25.4),
    "kg": ("lb", 0.45359237),
    "N": ("lbf", 4.4482216152605),
    "N*mm": ("lbf*in", 112.9848290276167),
}
_QUANTITY = re.compile(r"([-+0-9. x]*[0-9]) (mm|kg|N\*mm|N)(?=[\"'])")


def in_inches(text: str) -> str:
    """A case typed in mm, kg and N, typed in inches, pounds and pounds-force instead."""

    def converted(match: re.Match[str]) -> str:
        unit, factor = UNITS[match[2]]
        numbers = re.sub(r"[-+]?[0-9.]+", lambda n: repr(float(n[0]) / factor), match[1])
        return f"{numbers} {unit}"

    whole = re.sub(r"(tube|bar|box|square|flat) ([^'\"]*) mm", lambda m: f"{m[1]} {_sizes(m[2])} in", text)
    return _QUANTITY.sub(converted, whole)


def _sizes(text: str) -> str:
    return " x ".join(repr(float(size) / 25.4) for size in text.split("x"))


def flat(value: object) -> list[object]:
    """All plain values of a case, floats rounded to eleven figures."""
    if hasattr(value, "__attrs_attrs__"):
        return [x for field in value.__attrs_attrs__ for x in flat(getattr(value, field.name))]
    if isinstance(value, tuple | list):
        return [x for each in value for x in flat(each)]
    if isinstance(value, dict):
        return [x for key in sorted(value) for x in (key, *flat(value[key]))]
    return [float(f"{value:.11g}") if isinstance(value, float) else value]


def test_millimetres_or_inches():
    """The same case typed in metric or inch units is the same case (eleven figures)."""
    inches = in_inches(WHOLE)
    assert " mm" not in inches.replace("mm^", "").replace("N/mm", "")
    assert flat(without_paths(read(inches))) == flat(without_paths(read(WHOLE)))


LENGTHS = {"mm": 1.0, "cm": 10.0, "in": 25.4, "ft": 304.8}
NUMBERS = st.floats(-2000, 2000, allow_nan=False).map(lambda value: round(value, 4))


@settings(max_examples=40)
@given(
    st.tuples(NUMBERS, NUMBERS, NUMBERS),
    st.sampled_from([("mm", 1.0), ("cm", 10.0), ("in", 25.4), ("ft", 304.8)]),
)
def test_any_unit_of_length(at, unit):
    """A point is where it is, whatever unit it is typed in."""
    word, factor = unit
    typed = " ".join(repr(value) for value in at)
    text = BENCH.replace("[members]", f'p = "{typed} {word}"\n[members]')
    text += "[masses]\nm = {mass = '1 kg', at = 'p', carried_by = 'p'}\n"
    if max(abs(value) for value in at) * factor < 0.02:
        return  # that is the foot
    found = next(point.at for point in read(text).points if point.name == "p")
    assert found == pytest.approx([value * factor for value in at], rel=1e-14, abs=1e-300)


@settings(max_examples=25)
@given(st.randoms(use_true_random=False))
def test_the_order_of_tables_does_not_matter(random):
    """Tables in any order give the same parts; names that are made do not depend on it."""
    head, *tables = re.split(r"(?m)^(?=\[[a-z]+\]$)", TRIKE)
    random.shuffle(tables)
    mixed, straight = read(head + "".join(tables)), read(TRIKE)
    for field in ("points", "members", "wheels", "masses", "loads"):
        ours = sorted(getattr(mixed, field), key=lambda part: part.name)
        assert ours == sorted(getattr(straight, field), key=lambda part: part.name)


def test_reading_twice():
    """The same text gives the same case."""
    assert read(WHOLE) == read(WHOLE)


def outcome(text: str) -> bool:
    """Whether a text is read, or refused with at least one fault, each with its words."""
    try:
        case_from_text(text)
    except CaseError as error:
        return bool(error.faults) and all(why for _, why in error.faults)
    return True


@settings(max_examples=150)
@given(st.text(max_size=120))
def test_random_text(text):
    """Any text is refused with a CaseError or read."""
    assert outcome(text)


WORDS = """
title mirror point points member members strut struts support supports wheels masses load loads weld welds
bolts studs holes shoulders sleeves clamps tows wishbones knuckles brackets change material filler defaults
basis vehicle display road spread name at from to section hold by between on up end size class left right
"""
KEYS = st.sampled_from(WORDS.split())
USUAL = [
    "0 0 0 mm",
    "1 2 3 mm",
    "a",
    "a.left",
    "tube 25 x 2 mm",
    "rigid",
    "all",
    "M8",
    "both",
    "0.5 g",
    "1 0 0",
]
TEXTS = st.one_of(st.text(max_size=8), st.sampled_from(USUAL))
LEAVES = st.one_of(TEXTS, st.integers(-3, 10**30), st.floats(), st.booleans())
NAMES = st.one_of(KEYS, TEXTS)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(NAMES, inner, max_size=4)),
    max_leaves=12,
)


def toml(value: object) -> str:
    """A value as TOML."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)} = {toml(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(toml(each) for each in value) + "]"
    if isinstance(value, str):
        return quoted(value)
    return str(value)


def quoted(text: str) -> str:
    """A text in double quotes, every sign escaped."""
    return '"' + "".join(f"\\U{ord(sign):08x}" for sign in text if not 0xD800 <= ord(sign) < 0xE000) + '"'


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(KEYS, TREES, max_size=6))
def test_random_tables(tables):
    """Any tables are refused with a CaseError or read."""
    text = "\n".join(f"{quoted(key)} = {toml(value)}" for key, value in tables.items())
    tomllib.loads(text)
    assert outcome(text)


LINES = [i for i, line in enumerate(WHOLE.split("\n")) if "=" in line]


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(LINES), TREES)
def test_one_value_replaced(line, value):
    """One line of a right case with anything at all as its value is refused with a CaseError or read."""
    lines = WHOLE.split("\n")
    lines[line] = f"{lines[line].split('=')[0]} = {toml(value)}"
    assert outcome("\n".join(lines))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(LINES))
def test_one_line_left_out(line):
    """A right case without one of its lines is refused with a CaseError or read."""
    lines = WHOLE.split("\n")
    del lines[line]
    assert outcome("\n".join(lines))
