"""The JSON record: its keys, their order, and that its figures are those of the outcome."""

import csv
import io
import json

import pytest

from strength.errors import SolveError
from strength.report.checks_table import checks_csv
from strength.report.loads_record import loads_record
from strength.report.record import summary_record
from strength.report.record_text import text_of
from strength.vehicle.sheet import Limit
from tests.report.outcomes import outcome, rows

TOP = [
    "format", "title", "program", "input_sha256", "units", "cautions", "assumed", "read_as", "loads",
    "wheel_movement", "points", "supports", "members", "stresses", "struts", "checks", "not_checked",
    "warnings", "worst", "only_paths",
]  # fmt: skip
ENTRIES = {
    "assumed": ["part", "key", "value"],
    "read_as": ["part", "text"],
    "loads": ["name", "severity", "lean", "scaled_to", "notes", "wheels", "tows"],
    "wheel_movement": ["name", "load", "moved", "toe", "camber"],
    "points": ["name", "load", "displacement"],
    "supports": ["at", "load", "reaction"],
    "members": ["name", "load", "end", "N", "Vy", "Vz", "T", "My", "Mz"],
    "stresses": ["member", "load", "where", "axial", "bending", "shear", "torsion", "von_mises"],
    "struts": ["name", "load", "N"],
    "checks": [
        "id", "part", "kind", "load", "where", "demand", "limit", "unit", "utilisation", "margin",
        "in_range", "fails", "source", "note",
    ],
    "not_checked": ["part", "kind", "why"],
    "warnings": ["part", "text"],
}  # fmt: skip


@pytest.fixture(name="record", scope="module")
def fixture_record() -> dict:
    """The record as a script reads it."""
    return json.loads(text_of(summary_record(outcome())))


def test_keys(record: dict) -> None:
    """Keys and their order are fixed."""
    assert list(record) == TOP
    for key, expected in ENTRIES.items():
        assert record[key], key
        assert all(list(entry) == expected for entry in record[key]), key
    assert record["format"] == 1
    assert record["units"] == {
        "length": "mm", "force": "N", "moment": "N*mm", "stress": "MPa", "mass": "kg", "angle": "rad",
    }  # fmt: skip


def test_members_have_both_ends(record: dict) -> None:
    """The forces at `from` and at `to` are those of the first and the last segment."""
    told = outcome()
    found = {(m["name"], m["load"], m["end"]): m for m in record["members"]}
    assert len(found) == len(told.loads) * len(told.case.members) * 2
    for n, load in enumerate(told.loads):
        for b, member in enumerate(told.case.members):
            for end, segment, side in (("from", told.layout.first[b], 0), ("to", told.layout.last[b], 1)):
                entry = found[member.name, load.name, end]
                expected = told.response.forces[0, n, segment, side]
                assert [entry[k] for k in ("N", "Vy", "Vz", "T", "My", "Mz")] == expected.tolist()


def test_struts_follow_the_members(record: dict) -> None:
    """A strut's force is that of its own bar."""
    told = outcome()
    count = len(told.case.members)
    found = {(s["name"], s["load"]): s["N"] for s in record["struts"]}
    for n, load in enumerate(told.loads):
        for s, strut in enumerate(told.case.struts):
            assert found[strut.name, load.name] == told.response.forces[0, n, count + s, 0, 0]


def test_points_and_supports(record: dict) -> None:
    """Displacements and reactions keep their load and their name."""
    told = outcome()
    moved = {(p["name"], p["load"]): p["displacement"] for p in record["points"]}
    assert (
        moved["nose", "full stop"]
        == told.response.displacements[0, 1, told.layout.names.index("nose")].tolist()
    )
    held = {(s["at"], s["load"]): s["reaction"] for s in record["supports"]}
    assert held["bench", "speed bump"] == told.response.reactions[0, 6, 0].tolist()


def test_worst_is_the_greatest(record: dict) -> None:
    """`worst` names the row of the greatest utilisation; rows stand in the order given."""
    greatest = max(rows(), key=lambda row: row.utilisation)
    assert record["worst"] == {"id": greatest.id, "utilisation": greatest.utilisation}
    assert [row["id"] for row in record["checks"]] == [row.id for row in rows()]


def test_margin_is_one_over_u_less_one(record: dict) -> None:
    """And it is null, not infinite, where nothing is asked."""
    for row in record["checks"]:
        assert row["margin"] == pytest.approx(1.0 / row["utilisation"] - 1.0, rel=1e-12)
    idle = rows()[0]._replace(utilisation=0.0, demand=0.0)
    told = json.loads(text_of(summary_record(outcome(rows=(idle,)))))
    assert told["checks"][0]["margin"] is None
    assert told["worst"] == {"id": idle.id, "utilisation": 0.0}


def test_no_rows() -> None:
    """A case without any check has no worst row."""
    assert json.loads(text_of(summary_record(outcome(rows=()))))["worst"] is None


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_only_finite_numbers(value: float) -> None:
    """JSON knows no infinity, and a margin from one is worth nothing."""
    bad = rows()[0]._replace(demand=value)
    with pytest.raises(SolveError, match="not a finite number"):
        text_of(summary_record(outcome(rows=(bad,))))


def test_names_survive() -> None:
    """Quotes, backslashes and letters of other languages come back as they were."""
    odd = rows()[0]._replace(part='träger "A\\B" 3/8')
    told = json.loads(text_of(summary_record(outcome(rows=(odd,)))))
    assert told["checks"][0]["part"] == odd.part


def test_csv_says_the_same_as_the_record(record: dict) -> None:
    """Both faces hold the same rows and figures."""
    table = list(csv.DictReader(io.StringIO(checks_csv(rows()))))
    assert len(table) == len(record["checks"])
    for line, row in zip(table, record["checks"], strict=True):
        assert (line["id"], line["where"], line["unit"]) == (row["id"], row["where"], row["unit"])
        assert float(line["utilisation"]) == row["utilisation"]
        assert float(line["margin"]) == row["margin"]


def test_loads_record() -> None:
    """Keys of the load sheet's record; what a limit has not, is left out."""
    limits = (
        Limit(what="corner left", with_payload=True, tips_at=0.5, speed=(("5 m", 4.9), ("10 m", None))),
        Limit(what="brake", with_payload=False, slides_at=0.7),
        Limit(what="side slope left", with_payload=True, angle=0.4),
    )
    record = json.loads(text_of(loads_record(outcome().loads, limits)))
    assert record["format"] == 1
    assert [load["name"] for load in record["loads"]] == [load.name for load in outcome().loads]
    assert record["loads"][0]["tows"] == [{"name": "eye", "force": [1.5, -2.5, 3.5]}]
    assert record["limits"] == [
        {
            "what": "corner left", "with_payload": True, "tips_at": 0.5, "slides_at": None,
            "speed": {"5 m": 4.9, "10 m": None},
        },
        {"what": "brake", "with_payload": False, "tips_at": None, "slides_at": 0.7},
        {"what": "side slope left", "with_payload": True, "angle": 0.4},
    ]  # fmt: skip
