"""Figures as they are shown. Conversions: NIST SP 811 (2008), table B.8; the inch exactly 25.4 mm."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.report.display import Display, figure, margin, percent, whole

METRIC, INCH = Display("metric"), Display("inch")


@pytest.mark.parametrize(
    ("unit", "value", "metric", "inch"),
    [
        ("MPa", 235.0, "235 MPa", "34.1 ksi"),  # 1 ksi = 6.894757 MPa
        ("N", 1250.0, "1250 N", "281 lbf"),  # 1 lbf = 4.448222 N
        ("N", 23456.0, "23 456 N", "5273 lbf"),
        ("N*mm", 88000.0, "88 N*m", "779 lbf*in"),  # 1 lbf in = 0.1129848 N m
        ("1", 0.876, "0.88", "0.88"),
    ],
)
def test_quantity(unit: str, value: float, metric: str, inch: str) -> None:
    """One row, one conversion."""
    assert METRIC.quantity(value, unit) == metric
    assert INCH.quantity(value, unit) == inch


def test_speeds_are_rounded_down() -> None:
    """5.55 m/s are 19.98 km/h and 12.41 mph: a limit is never told too high."""
    assert METRIC.speed(5.55) == "19"
    assert INCH.speed(5.55) == "12"
    assert METRIC.speed(20.0 / 3.6) == "20"


def test_lengths() -> None:
    """12.7 mm is half an inch."""
    assert METRIC.length(12.7) == "12.7"
    assert INCH.length(12.7) == "0.500"


@given(st.floats(-1.0, 1e9))
def test_margin_keeps_its_sign(value: float) -> None:
    """At most five characters, and what is below nought never reads as nought or more."""
    text = margin(value)
    assert len(text) <= 5
    if value < -1e-9:
        assert text.startswith("-")
    elif value > 0.0:
        assert not text.startswith("-")


@given(st.floats(-1e12, 1e12))
def test_whole_and_figure_read_back(value: float) -> None:
    """What is shown is what was meant, to three figures or half a unit."""
    back = float(whole(value).replace(" ", ""))
    assert math.isclose(back, value, rel_tol=1e-3, abs_tol=0.5)
    assert math.isclose(float(figure(value).replace(" ", "")), value, rel_tol=6e-3, abs_tol=1e-12)


@given(st.floats(1e-12, 1e6))
def test_percent_of_anything_over_is_not_nought(value: float) -> None:
    """Over the limit by a hair is still told."""
    assert not percent(value).startswith("0 %")


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_nought_has_no_sign(system: str) -> None:
    """A pull of -0.01 MPa reads as none, not as a push of nought."""
    assert not Display(system).stress(-0.01).startswith("-")
    assert Display(system).stress(-50.0).startswith("-")
