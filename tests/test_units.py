"""Units at the border: against pint, the SI brochure and the definitions of the inch and the pound."""

import copy
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import strength.units
from strength.errors import QuantityError
from strength.units import GRAVITY, quantity, show, spread_quantity, unit_of, vector
from strength.units.table import FACTORS
from tests.make_units_table import UNITS, factor, registry, table

ROWS = [(dimension, text) for dimension, (_, texts) in UNITS.items() for text in texts.split()]


@pytest.fixture(scope="module")
def pint_units():
    """Pint's registry in exact fractions."""
    return registry()


@pytest.mark.parametrize(("dimension", "text"), ROWS)
def test_table_is_what_pint_says(pint_units, dimension, text):
    """Every row of the table against pint, computed in exact fractions."""
    assert FACTORS[dimension][text] == factor(pint_units, dimension, text)


def test_table_is_as_made():
    """The module is what its script writes: no row more, none less."""
    used = Path(strength.units.__file__).with_name("table.py")
    assert used.read_text(encoding="utf-8") == table()


# The units every case file may count on.
GUARANTEED = {
    "length": "mm cm m in ft",
    "force": "N kN lbf kip",
    "moment": "N*m N*mm kN*m lbf*in lbf*ft kip*in",
    "stress": "MPa GPa ksi psi",
    "mass": "kg lb",
    "density": "kg/m^3 lb/in^3",
    "stiffness": "N/mm kN/mm lbf/in",
    "angle": "deg rad",
    "acceleration": "g m/s^2",
    "distance": "km",
    "area": "mm^2 cm^2 in^2",
    "inertia": "mm^4 cm^4 in^4",
}


@pytest.mark.parametrize("dimension", GUARANTEED)
def test_guaranteed_units_need_no_pint(dimension):
    """What people write is in the table, so that pint stays out of a run."""
    assert set(GUARANTEED[dimension].split()) <= set(FACTORS[dimension])


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        # BIPM, The International System of Units, 9th ed. (2019), and its appendix tables in NIST SP 811
        # (2008), app. B.8: inch 25.4 mm exactly, pound 0.453 592 37 kg exactly, g 9.806 65 m/s^2 exactly,
        # lbf 4.448 222 N, psi 6894.757 Pa, lbf*in 0.112 984 8 N*m, lbf*ft 1.355 818 N*m,
        # lbf/in 175.1268 N/m, lb/in^3 27 679.90 kg/m^3, kip 4448.222 N, in^4 4.162 314e-7 m^4
        ("1 in", "length", 25.4),
        ("2.5 ft", "length", 762.0),
        ("3 lb", "mass", 1.36077711),
        ("0.5 g", "acceleration", 4903.325),
        ("200 lbf", "force", 889.6444),
        ("2 ksi", "stress", 13.789514),
        ("7 lbf*in", "moment", 790.8936),
        ("3 lbf*ft", "moment", 4067.454),
        ("40 lbf/in", "stiffness", 7.005072),
        ("0.284 lb/in^3", "density", 7.8610916e-6),
        ("1.5 kip", "force", 6672.333),
        ("236 in^4", "inertia", 98230610.4),
        ("25 deg", "angle", 0.436332313),  # pi * 25 / 180
        ("20000 km", "distance", 20000.0),
        ("-.5 cm", "length", -5.0),
        ("+2.e1 mm", "length", 20.0),
        ("1e3mm", "length", 1000.0),
        ("  12.5   mm ", "length", 12.5),
    ],
)
def test_quantity(text, dimension, expected):
    """Printed conversion factors; 5e-7 is the rounding of seven printed figures."""
    assert quantity(text, dimension) == pytest.approx(expected, rel=5e-7)


@pytest.mark.parametrize(
    "text", ["120 N*m", "120 N m", "120 Nm", "0.12 kNm", "120 N·m", "120 N * m", "120 J"]
)
def test_newton_metres(text):
    """All the ways people write a newton metre are one."""
    assert quantity(text, "moment") == pytest.approx(120_000.0, rel=1e-15)


@pytest.mark.parametrize("text", ["5 N/mm^2", "5 N / mm²", "5 N/mm**2", "5 MPa", "50 bar"])
def test_powers(text):
    """A power is written with ^, ** or a raised figure."""
    assert quantity(text, "stress") == pytest.approx(5.0, rel=1e-15)


def test_other_units_go_to_pint():
    """A furlong is 201.168 m (NIST SP 811 app. B.8: 2.011 684 e2 for the survey foot, six figures alike)."""
    assert quantity("1 furlong", "length") == pytest.approx(201_168.0, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("12,5 mm", "length", "'12,5 mm' has a comma: write a point for decimals"),
        ("1,200 mm", "length", "'1,200 mm' has a comma"),
        ("5", "length", "'5' has no unit: write a length such as '25 mm'"),
        (5, "length", "'5' is a bare number: put it in quotes with a unit, such as '25 mm'"),
        (5.5, "mass", "'5.5' is a bare number: put it in quotes with a unit, such as '80 kg'"),
        (float("nan"), "mass", "'nan' is a bare number"),
        (True, "length", "'true' is a yes or no"),
        (["1 mm"], "length", "is not a text"),
        ("mm", "length", "'mm' is not a number and a unit"),
        ("", "length", "'' is not a number and a unit"),
        ("nan mm", "length", "'nan mm' is not a number and a unit"),
        ("inf mm", "length", "'inf mm' is not a number and a unit"),
        ("-inf mm", "length", "'-inf mm' is not a number and a unit"),
        ("1e400 mm", "length", "'1e400 mm' is too large a number"),
        ("1e308 m", "length", "'1e308 m' is too large a number"),
        ("9**9**2 mm", "length", "'9**9**2 mm' is not a number and a unit"),
        ("2*3 mm", "length", "'2*3 mm' is not a number and a unit"),
        ("1/2 in", "length", "'1/2 in' is not a number and a unit"),
        ("5 mm^9^9^9", "length", "is not a number and a unit"),
        ("5 __import__('os')", "length", "is not a number and a unit"),
        ("5 N/mm2", "stress", "'5 N/mm2' writes a power without '^': write N/mm^2"),
        ("3 cm4", "inertia", "'3 cm4' writes a power without '^': write cm^4"),
        ("10 ft lb", "moment", "'10 ft lb' is not a moment: write lbf*ft"),
        ("10 lb", "force", "'10 lb' is not a force: write lbf"),
        ("10 kg", "force", "'10 kg' is not a force: write kgf (or the force in N)"),
        ("10 mm", "force", "'10 mm' is a length, but a force is wanted, such as '900 N'"),
        ("10 degC", "length", "'10 degC' is of another sort (temperature): a length is wanted"),
        ("3 slug*ft", "moment", "'3 slug*ft' is of another sort (length * mass): a moment is wanted"),
        ("3 apples", "length", "'3 apples' has the unknown unit 'apples': write a length such as '25 mm'"),
        ("3 percent", "angle", "'3 percent' has the unknown unit 'percent'"),
        ("1 2 mm", "length", "'1 2 mm' has 2 numbers where one number and a unit are wanted"),
        ("1" * 400 + " mm", "length", "is too long"),
    ],
)
def test_refused(text, dimension, message):
    """One clear message for each thing that is no quantity."""
    with pytest.raises(QuantityError) as caught:
        quantity(text, dimension)
    assert message in str(caught.value)
    assert "\n" not in str(caught.value)


def test_vector():
    """Three numbers and one unit; a direction has none."""
    assert vector("-120 350.5 2e2 mm", "length") == (-120.0, 350.5, 200.0)
    assert vector("1 -2 3 ft", "length") == pytest.approx((304.8, -609.6, 914.4), rel=1e-15)
    assert vector(" 0 1 -0.5", "") == (0.0, 1.0, -0.5)
    assert spread_quantity("1 2 3 4 mm", "length", 4) == (1.0, 2.0, 3.0, 4.0)


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        (
            "1 2 mm",
            "length",
            "has 2 numbers where 3 numbers and a unit are wanted, such as '-120 350 260 mm'",
        ),
        ("1 2 3 4 mm", "length", "has 4 numbers where 3 numbers"),
        ("1 2 3", "length", "has no unit"),
        ("1 2 nan mm", "length", "has 2 numbers where 3 numbers and a unit"),
        ("1mm 2mm 3mm", "length", "names a unit in its midst: write it once, at the end"),
        ("0 0 1 mm", "", "is a direction, three bare numbers without a unit"),
        ("0 1", "", "is not three numbers: write a direction such as '0 0 1'"),
        ("0,0,1", "", "has a comma"),
        (1, "", "is a bare number"),
    ],
)
def test_refused_vector(text, dimension, message):
    """One clear message for each thing that is no vector."""
    with pytest.raises(QuantityError) as caught:
        vector(text, dimension)
    assert message in str(caught.value)


@given(st.text(max_size=30), st.sampled_from(sorted(FACTORS)))
def test_any_text_is_read_or_refused(text, dimension):
    """No text does anything but give a finite number or the one error."""
    try:
        value = quantity(text, dimension)
    except QuantityError:
        value = 0.0
    assert abs(value) < float("inf")


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(FACTORS)), st.sampled_from(["metric", "inch"]))
def test_shown_is_read_back(value, dimension, system):
    """What is shown means the same when read, to the figures shown."""
    shown = show(value, dimension, system, digits=12)
    assert quantity(shown, dimension) == pytest.approx(value, rel=1e-11, abs=1e-300)


@pytest.mark.parametrize(
    ("value", "dimension", "system", "expected"),
    [
        (12.5, "length", "metric", "12.5 mm"),
        (25.4 * 1.375, "length", "inch", "1.375 in"),
        (4.4482216152605 * 210, "force", "inch", "210 lbf"),
        (235.0, "stress", "metric", "235 MPa"),
        (6.894757293168361 * 36.25, "stress", "inch", "36.25 ksi"),
        (120_000.0, "moment", "metric", "120 N*m"),
        (0.5 * GRAVITY, "acceleration", "metric", "0.5 g"),
        (0.45359237 * 180, "mass", "inch", "180 lb"),
        (98_230_000.0, "inertia", "metric", "98230000 mm^4"),
        (-0.0, "force", "metric", "0 N"),
        (0.7853981633974483, "angle", "inch", "45 deg"),
    ],
)
def test_show(value, dimension, system, expected):
    """Values for people: by the exact definitions of the units."""
    assert show(value, dimension, system) == expected


def test_units_shown():
    """Inch display shows lengths in in, forces in lbf, stresses in ksi."""
    assert [unit_of(d, "inch") for d in ("length", "force", "stress")] == ["in", "lbf", "ksi"]
    assert [unit_of(d) for d in ("length", "force", "stress")] == ["mm", "N", "MPa"]


def test_error_survives_a_copy():
    """A fault met in a parallel study comes back whole."""
    error = QuantityError("5", "has no unit")
    assert str(copy.copy(error)) == "'5' has no unit"


def test_reading_leaves_pint_out():
    """Pint costs more than all the rest of a run: the usual units do without."""
    code = "import sys; from strength.units import quantity; quantity('1 in', 'length')"
    code += "; print('pint' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"
