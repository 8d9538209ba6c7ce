"""Eyes of lugs: the table solved for the force, its interaction, rows by hand, and what is refused.

EN 1993-1-8:2005 Table 3.9 type A: a >= F gM0/(2 t fy) + 2 d0/3, c >= F gM0/(2 t fy) + d0/3 (partly seen).
Melcon and Hoblit: Ra^1.6 + Rtr^1.6 = 1 (from memory).
"""

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.expanded import expand_text
from strength.checks.lug import lug
from strength.errors import CaseError
from strength.joints.lug import eye_resistance, oblique
from tests.case.cases import read
from tests.checks.jointed import across_flat, arm, bolt, plate
from tests.checks.loaded import LIMIT_STATE

X, Y, Z = across_flat()
END, SIDE, HOLE = 23.0, 19.0, 10.2


@given(
    st.floats(1.0, 20.0),
    st.floats(200.0, 400.0),
    st.floats(6.0, 30.0),
    st.floats(1.2, 4.0),
    st.floats(1.2, 4.0),
)
def test_resistance_meets_the_table(t, fy, d0, ahead, beside):
    """Both distances of the table hold at the force found, one of them just so."""
    force = float(eye_resistance(t, fy, ahead * d0, beside * d0, d0))
    a, c = (ahead - 0.5) * d0, (beside - 0.5) * d0
    spare = (a - force / (2 * t * fy) - 2 * d0 / 3, c - force / (2 * t * fy) - d0 / 3)
    assert min(spare) == pytest.approx(0.0, abs=1e-9 * d0) or force <= 0.0201 * d0 * t * fy


def test_oblique_pull():
    """0.5 and 0.5 sum to 0.6598, margin 0.297 (computed from the formula); either alone is itself."""
    assert float(oblique(0.5, 0.5)) ** 1.6 == pytest.approx(0.6598, abs=1e-4)
    assert 1.0 / float(oblique(0.5, 0.5)) - 1.0 == pytest.approx(0.297, abs=1e-3)
    assert float(oblique(0.7, 0.0)) == pytest.approx(0.7)
    assert float(oblique(0.0, 0.3)) == pytest.approx(0.3)


def row(force, **given):
    """The row of a lug under N Vy Vz of its flat at `to`, bolt across the flat."""
    basis = given.pop("basis", None)
    own = bolt(**({"plates": (plate(8.0, edge=19.0, hole=HOLE),), "lug": (END, SIDE)} | given))
    made = {} if basis is None else {"basis": basis}
    return next(iter(lug(arm([*force, 0.0, 0.0, 0.0], bolts=(own,), **made)))).rows(("load 0",))[0]


R_ALONG = 2.0 * 8.0 * 240.0 * min(END - HOLE / 2 - 2 * HOLE / 3, SIDE - HOLE / 2 - HOLE / 3)
R_ACROSS = 2.0 * 8.0 * 240.0 * min(SIDE - HOLE / 2 - 2 * HOLE / 3, END - HOLE / 2 - HOLE / 3)


def test_along_across_and_between():
    """Over 1.67; only what is pulled along needs the eye, and what runs along the bolt needs none."""
    a, b = 9e3 * 1.67 / R_ALONG, 5e3 * 1.67 / R_ACROSS
    assert row([9e3, 0.0, 0.0]).utilisation == pytest.approx(a)
    assert row([0.0, 0.0, -5e3]).utilisation == pytest.approx(b)
    assert row([9e3, 700.0, 5e3]).utilisation == pytest.approx((a**1.6 + b**1.6) ** 0.625)
    assert row([-9e3, 0.0, 5e3]).utilisation == pytest.approx(b)
    found = row([9e3, 0.0, 5e3])
    assert (found.kind, found.unit, found.limit, found.fails, found.in_range) == (
        "lug",
        "1",
        1.0,
        "bends",
        True,
    )


def test_at_the_other_end():
    """Tension pulls on the eye at `from` as well."""
    assert row([9e3, 0.0, 0.0], end="from").utilisation == pytest.approx(9e3 * 1.67 / R_ALONG)


def test_limit_state_and_only_path():
    """Load factor 1.5, gamma_M0 1.00; 1.25."""
    found = row([9e3, 0.0, 0.0], basis=LIMIT_STATE, only_path=True)
    assert found.utilisation == pytest.approx(1.25 * 1.5 * 9e3 / R_ALONG)


def test_too_little_metal_is_out_of_range():
    """The side 2/3 of the hole past its edge, 11.9 mm from its middle: nothing is left sideways."""
    assert row([9e3, 0.0, 0.0], lug=(END, 12.0), plates=(plate(8.0, edge=12.0, hole=HOLE),)).in_range
    found = row([9e3, 0.0, 0.0], lug=(END, 11.8), plates=(plate(8.0, edge=11.8, hole=HOLE),))
    assert not found.in_range
    assert "Table 3.9" in found.note


def test_none_without_the_key():
    """Old files have no such row."""
    assert list(lug(arm([9e3, 0, 0, 0, 0, 0], bolts=(bolt(plates=(plate(8.0),)),)))) == []


CASE = """
title = "Bracken eye"
[defaults]
material = "S235JR"
class = "8.8"
[members]
strap = {from = "0 0 0 mm", to = "0 0 200 mm", section = "flat 40 x 8 mm", up = "1 0 0"}
[supports]
strap-from = "all"
[bolts.eye]
member = "strap"
end = "to"
axis = "0 1 0"
size = "M10"
shear_planes = 2
plates = [{thickness = "8 mm", edge = "19 mm", hole = "10.2 mm"}]
lug = {end = "23 mm", side = "19 mm"}
[loads]
pull = {forces = [{at = "strap-to", force = "900 0 1800 N"}]}
"""


def test_read_and_written_out():
    """The written case comes back the same."""
    case = read(CASE)
    assert case.bolts[0].lug == (23.0, 19.0)
    assert attrs.evolve(read(expand_text(case)).bolts[0], path="") == attrs.evolve(case.bolts[0], path="")


@pytest.mark.parametrize(
    ("old", "new", "path", "why"),
    [
        (
            'plates = [{thickness = "8 mm", edge = "19 mm", hole = "10.2 mm"}]\n',
            "",
            "lug",
            "`plates` is missing",
        ),
        ('end = "23 mm"', 'end = "5 mm"', "lug.end", "inside the hole"),
        ('side = "19 mm"', 'side = "18 mm"', "lug.side", "less than the 19 mm"),
        ('axis = "0 1 0"', 'axis = "0 0 1"', "lug", "along the part"),
        ("shear_planes = 2", 'group = ["5 0 0 mm", "-5 0 0 mm"]', "lug", "not of a group"),
    ],
)
def test_refused(old, new, path, why):
    """Each with its path."""
    assert old in CASE
    with pytest.raises(CaseError) as told:
        read(CASE.replace(old, new))
    assert any(each == f"bolts.eye.{path}" and why in text for each, text in told.value.faults), (
        told.value.faults
    )


def test_direction_is_the_parts():
    """The flat runs along x_m, its width along z_m, the bolt along y_m."""
    assert np.allclose(np.cross(Y, Z), X)
