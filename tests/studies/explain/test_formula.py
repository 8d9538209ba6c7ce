"""Formulas that are printed and worked out alike, against Python's own arithmetic and sympy's."""

import math

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from strength.studies.explain.formula import FormulaError, total, value_of, with_numbers

NUMBERS = st.floats(0.01, 100.0)


@given(a=NUMBERS, b=NUMBERS, c=NUMBERS)
def test_formula_is_worked_out_as_sympy_does(a: float, b: float, c: float) -> None:
    """Order of operations, powers, minus signs and functions."""
    text = "-a^2/(b + 3*c) + sqrt(b*c)^-1*max(a, min(b, 2.5)) - abs(-c)*exp(-a/100)"
    told = sympy.sympify(text.replace("max", "Max").replace("min", "Min"), rational=False)
    found = float(told.subs({"a": a, "b": b, "c": c}))
    assert value_of(text, {"a": a, "b": b, "c": c}) == pytest.approx(found, rel=1e-9, abs=1e-9)


def test_angles_are_in_radians() -> None:
    """Sine, cosine, tangent and its inverse, and the hypotenuse."""
    values = {"p": math.radians(30.0), "q": 3.0}
    assert value_of("sin(p) + cos(2*p) + tan(p)^2", values) == pytest.approx(0.5 + 0.5 + 1.0 / 3.0)
    assert value_of("atan(tan(p)) + hypot(q, 4)", values) == pytest.approx(math.pi / 6.0 + 5.0)


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')",
        "a.b",
        "a[0]",
        "lambda: 1",
        "unknown + 1",
        "1/0",
        "a if a else 1",
        "(1, 2)",
        "'a'",
        "",
    ],
)
def test_nothing_but_arithmetic(text: str) -> None:
    """Whatever is no formula is refused, and names the text."""
    with pytest.raises(FormulaError) as refused:
        value_of(text, {"a": 1.0})
    assert repr(text) in str(refused.value)


def test_numbers_take_the_place_of_whole_symbols() -> None:
    """A symbol within another, a function and an exponent stay as they are."""
    shown = {"M": "5", "M_y": "-2", "e": "9", "sin": "1"}
    assert with_numbers("M*sin(M_y) + 1e3*M_z", {**shown}) == "5*1((-2)) + 1e3*M_z"
    assert with_numbers("M_y^2", shown) == "(-2)^2"


def test_sum_of_directions() -> None:
    """Nothing falls out, ones are not written, others stand by name."""
    assert total((0.0, "x", "N"), (-1.0, "y", "V"), (0.6, "z", "T")) == "-V + z*T"
    assert total((0.0, "x", "N"), (1e-17, "y", "V")) == "0"
    assert total((0.5, "x", "N"), (1.0, "y", "V"), (-1.0, "z", "T")) == "x*N + V - T"
