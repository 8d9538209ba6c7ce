"""`yielding` and `rupture`: factors, places and limits, worked by hand."""

from math import pi, sqrt

import attrs
import pytest

from strength.case.model import Basis, Strut, Wheel
from strength.case.shape import Bar, Bare, Flat, Rigid, Tube
from strength.checks.bare import bare_sections
from strength.checks.yielding import rupture, yielding
from tests.checks.loaded import LIMIT_STATE, case_of, context_of, member, rows_of, weld

POINTS = {"a": (0.0, 0.0, 0.0), "b": (500.0, 0.0, 0.0), "c": (0.0, 0.0, 80.0), "hub": (0.0, 90.0, 0.0)}
NOTHING = (0.0,) * 6
# 40 x 10 mm flat: A 400 mm^2, so 50 kN is 125 MPa
PULL = [[(50e3, 0.0, 0.0, 0.0, 0.0, 0.0)] * 2]
FLAT = Flat(40.0, 10.0)


def test_allowable() -> None:
    """125 MPa against 240/1.67, and against 370/2; margin 1/u - 1."""
    context = context_of(case_of(POINTS, members=(member("tie", "a", "b", FLAT),)), {"tie": PULL})
    row = rows_of(context, list(yielding(context)))["tie/0"]
    assert (row.kind, row.unit, row.fails, row.in_range) == ("yielding", "MPa", "bends", True)
    assert (row.demand, row.limit) == (pytest.approx(125.0), pytest.approx(240.0 / 1.67))
    assert row.utilisation == pytest.approx(125.0 * 1.67 / 240.0)
    assert row.margin == pytest.approx(240.0 / 1.67 / 125.0 - 1.0)
    parted = rows_of(context, list(rupture(context)))["tie/0"]
    assert (parted.kind, parted.fails) == ("rupture", "parts")
    assert (parted.demand, parted.limit) == (pytest.approx(125.0), pytest.approx(185.0))


@pytest.mark.parametrize(
    ("severity", "allowable", "load", "on_yield"),
    [("routine", 1.67, 1.5, 1.0), ("hard", 1.67, 1.5, 1.0), ("abuse", 1.25, 1.25, 1.0)],
)
def test_both_bases(severity: str, allowable: float, load: float, on_yield: float) -> None:
    """The load factor stands in the demand, the other in the limit; forces keep neither."""
    case = case_of(POINTS, members=(member("tie", "a", "b", FLAT),))
    one = context_of(case, {"tie": PULL}, [severity])
    other = context_of(attrs.evolve(case, basis=LIMIT_STATE), {"tie": PULL}, [severity])
    row, limit_row = (rows_of(context, list(yielding(context)))["tie/0"] for context in (one, other))
    assert (row.demand, row.limit) == (pytest.approx(125.0), pytest.approx(240.0 / allowable))
    assert (limit_row.demand, limit_row.limit) == (
        pytest.approx(125.0 * load),
        pytest.approx(240.0 / on_yield),
    )
    parted = rows_of(other, list(rupture(other)))["tie/0"]
    assert parted.limit == pytest.approx(370.0 / 1.25)
    assert float(other.stations.peak[0, 0, 0]) == pytest.approx(125.0)


def test_aluminium_in_limit_states() -> None:
    """gM1 = 1.10 of EN 1999-1-1 on the yield strength."""
    case = case_of(POINTS, members=(member("tie", "a", "b", FLAT, "light"),), basis=LIMIT_STATE)
    context = context_of(case, {"tie": PULL})
    assert rows_of(context, list(yielding(context)))["tie/0"].limit == pytest.approx(255.0 / 1.10)


@pytest.mark.parametrize(
    ("metal", "yield_strength", "factor"),
    [("steel", 240.0, 1.25), ("light", 255.0, 1.25), ("brittle", 600.0, 1.67), ("unknown", 600.0, 1.67)],
)
def test_brittle_metals_in_abuse(metal: str, yield_strength: float, factor: float) -> None:
    """Elongation under 10 % or unknown: no easing. Exactly 10 % is tough enough."""
    context = context_of(
        case_of(POINTS, members=(member("tie", "a", "b", FLAT, metal),)), {"tie": PULL}, ["abuse"]
    )
    assert rows_of(context, list(yielding(context)))["tie/0"].limit == pytest.approx(yield_strength / factor)


def test_overrides() -> None:
    """An override by severity; 1.67 stays the least for brittle metals."""
    basis = Basis(factors={"yield_factor": (1.9, None, 1.1), "ultimate_factor": (2.5, 2.5, 2.5)})
    members = (member("tough", "a", "b", FLAT), member("hard", "a", "c", FLAT, "brittle"))
    case = case_of(POINTS, members=members, basis=basis)
    context = context_of(case, {"tough": PULL * 3, "hard": PULL * 3}, ["routine", "hard", "abuse"])
    rows = rows_of(context, list(yielding(context)))
    limits = [rows[f"tough/{n}"].limit for n in range(3)]
    assert limits == pytest.approx([240.0 / 1.9, 240.0 / 1.67, 240.0 / 1.1])
    assert [rows[f"hard/{n}"].limit for n in range(3)] == pytest.approx(
        [600.0 / 1.9, 600.0 / 1.67, 600.0 / 1.67]
    )
    assert rows_of(context, list(rupture(context)))["tough/1"].limit == pytest.approx(370.0 / 2.5)


def test_stub_axle_in_abuse() -> None:
    """A bar with a wheel's centre at an end keeps 1.67; a tube there, and a bar elsewhere, do not."""
    members = (
        member("axle", "a", "hub", Bar(20.0)),
        member("pipe", "hub", "c", Tube(25.0, 2.0)),
        member("rod", "a", "b", Bar(20.0)),
    )
    case = case_of(POINTS, members=members, wheels=(Wheel(name="front", centre="hub", radius=250.0),))
    context = context_of(case, {}, ["abuse"])
    limits = {name: row.limit for name, row in rows_of(context, list(yielding(context))).items()}
    assert limits == pytest.approx({"axle/0": 240.0 / 1.67, "pipe/0": 240.0 / 1.25, "rod/0": 240.0 / 1.25})


def test_only_path_stands_in_the_utilisation_alone() -> None:
    """1.25 on u; demand and limit stay as computed."""
    case = case_of(POINTS, members=(member("tie", "a", "b", FLAT, only_path=True),))
    context = context_of(case, {"tie": PULL})
    row = rows_of(context, list(yielding(context)))["tie/0"]
    assert (row.demand, row.limit) == (pytest.approx(125.0), pytest.approx(240.0 / 1.67))
    assert row.utilisation == pytest.approx(1.25 * row.demand / row.limit)


def test_no_load_no_margin() -> None:
    """Nothing asked of the part: utilisation 0, no margin."""
    context = context_of(case_of(POINTS, members=(member("tie", "a", "b", FLAT),)), {})
    row = rows_of(context, list(yielding(context)))["tie/0"]
    assert (row.demand, row.utilisation, row.margin) == (0.0, 0.0, None)


def test_worst_place_is_by_utilisation() -> None:
    """More stress in parent metal may be less of a worry than less of it beside a weld."""
    case = case_of(
        POINTS,
        members=(member("tie", "a", "b", FLAT, "light"),),
        welds=(weld("foot", "tie", "from", inset=0.0),),
    )
    # 100 MPa at a, 150 MPa at b
    context = context_of(case, {"tie": [[(40e3, *NOTHING[1:]), (60e3, *NOTHING[1:])]]})
    row = rows_of(context, list(yielding(context)))["tie/0"]
    # heat reaches 30 mm (wall 10 mm): 100 + 50 x 30/500 = 103 MPa against 125
    assert row.where == "30 mm from a, edge of the heat from foot"
    assert (row.demand, row.limit) == (pytest.approx(103.0), pytest.approx(125.0 / 1.67))
    assert row.note == "welded strength"
    # at b: 150 MPa against 300/2 uses all of it; beside the weld 103 against 185/2 uses more
    parted = rows_of(context, list(rupture(context)))["tie/0"]
    assert (parted.demand, parted.limit) == (pytest.approx(103.0), pytest.approx(185.0 / 2.0))


def test_tig() -> None:
    """TIG on 6xxx: welded strengths x 0.8; over 6 mm no rule gives the width, so out of range."""
    thin = Flat(40.0, 5.0)
    members = (member("thin", "a", "b", thin, "light"), member("thick", "a", "c", FLAT, "light"))
    welds = (weld("one", "thin", "from", process="tig"), weld("two", "thick", "from", process="tig"))
    context = context_of(case_of(POINTS, members=members, welds=welds), {"thin": PULL, "thick": PULL})
    rows = rows_of(context, list(yielding(context)))
    assert rows["thin/0"].limit == pytest.approx(0.8 * 125.0 / 1.67)
    assert rows["thin/0"].note == "welded strength x 0.8 (TIG)"
    assert (rows["thin/0"].in_range, rows["thick/0"].in_range) == (True, False)
    assert rows_of(context, list(rupture(context)))["thin/0"].limit == pytest.approx(0.8 * 185.0 / 2.0)


def test_combined_forces_on_a_bar() -> None:
    """Bending and torsion of a round bar: sqrt(sigma^2 + 3 tau^2) with W = pi d^3/32, Wt = pi d^3/16."""
    bar = member("shaft", "a", "b", Bar(20.0))
    ends = [[(0.0, 0.0, 0.0, 90e3, 60e3, -80e3), (0.0, 0.0, 0.0, 90e3, 0.0, 0.0)]]
    context = context_of(case_of(POINTS, members=(bar,)), {"shaft": ends})
    row = rows_of(context, list(yielding(context)))["shaft/0"]
    bending, torsion = 100e3 * 32.0 / (pi * 8000.0), 90e3 * 16.0 / (pi * 8000.0)
    assert row.demand == pytest.approx(sqrt(bending**2 + 3.0 * torsion**2), rel=1e-4)
    assert row.where == "at a"


def test_struts_and_parts_without_a_section() -> None:
    """A strut with a section has rows; bare properties have none and are told as not checked."""
    case = case_of(
        POINTS,
        members=(
            member("frame", "a", "b", Bare(area=100.0, iy=1.0, iz=2.0, torsion=3.0)),
            member("step", "a", "c", Rigid()),
        ),
        struts=(
            Strut(name="tie rod", start="c", end="b", shape=Bar(10.0), material="steel"),
            Strut(name="shock", start="c", end="a", stiffness=40.0),
        ),
    )
    push = [[(-2500.0, *NOTHING[1:])] * 2]
    context = context_of(case, {"tie rod": push, "frame": push})
    rows = rows_of(context, list(yielding(context)))
    assert list(rows) == ["tie rod/0"]
    assert rows["tie rod/0"].demand == pytest.approx(2500.0 / (pi * 25.0))
    assert [told.part for told in bare_sections(context)] == ["frame"]


def test_amplified_moments_are_told() -> None:
    """A load whose bending moments were raised says by how much."""
    case = case_of(POINTS, members=(member("tie", "a", "b", FLAT),))
    context = context_of(case, {"tie": PULL * 2}, ["routine", "hard"], amplified=[1.0, 1.25])
    rows = rows_of(context, list(yielding(context)))
    assert rows["tie/0"].note == ""
    assert rows["tie/1"].note == "bending moments x 1.25 for frame buckling"
