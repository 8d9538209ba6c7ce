"""Every row of whole case files against the second way: which rows there are, and what stands in them."""

import json
from pathlib import Path

import pytest

from strength.case import case_from_text, read_case
from strength.report.record import summary_record
from strength.report.record_text import text_of
from strength.run import run
from tests.second_way.expected import expected
from tests.second_way.random_joints import case_text

HERE = Path(__file__).parent / "cases"
DEMO = Path(__file__).parents[2] / "cases" / "bracken" / "case.toml"
NEAR = {  # relative; von Mises over a grid of points, weld lines in pieces, a mesh for the frame
    "yielding": 1e-3,
    "rupture": 1e-3,
    "weld-throat": 1e-4,
    "weld-toe": 1e-4,
    "frame-buckling": 5e-3,
}
CLOSED = 1e-7
# own figures on both sides, or no second way here
ELSEWHERE = ("plate-bending", "fatigue")


def compare(case, meshed):
    """Faults found between the record of a case and the second way."""
    record = json.loads(text_of(summary_record(run(case))))
    found = expected(case, record, meshed)
    skipped = ELSEWHERE if meshed else (*ELSEWHERE, "frame-buckling")
    told = {c["id"]: c for c in record["checks"] if c["kind"] not in skipped}
    faults = [f"{i}: only one has it" for i in set(told) ^ set(found.rows)]
    for i in sorted(set(told) & set(found.rows)):
        faults += [f"{i}: {fault}" for fault in faults_of_row(found.rows[i], told[i])]
    for stress in record["stresses"]:
        where = stress["member"], stress["load"]
        if where in found.stresses:
            faults += [f"{where}: {fault}" for fault in faults_of_stress(found.stresses[where], stress)]
    return faults, record


def faults_of_row(mine, theirs):
    """Figures, unit, range and margin of one row."""
    near = NEAR.get(mine.kind, CLOSED)
    if mine.kind == "frame-buckling" and theirs["utilisation"] < 3e-3:
        near = 5e-2  # such modes bend lengths shorter than their section is deep
    for key in ("utilisation", "demand", "limit"):
        a, b = getattr(mine, key), theirs[key]
        if abs(a - b) > near * max(abs(a), abs(b)) + 1e-8:
            yield f"{key} {a} and {b} at {theirs['where']}"
    if mine.unit != theirs["unit"]:
        yield f"unit {theirs['unit']}"
    if mine.in_range != theirs["in_range"] and not (mine.in_range and mine.fussy):
        yield f"in_range {theirs['in_range']}, {theirs['note']}"
    u, margin = theirs["utilisation"], theirs["margin"]
    if (margin is not None) if u == 0 else abs(u * (1 + margin) - 1) > 1e-9:
        yield f"margin {margin}"


def faults_of_stress(mine, theirs):
    """Nominal parts at the worst place of yielding."""
    scale = max(theirs["von_mises"], 1e-6)
    for key, a in zip(("axial", "bending", "shear", "torsion", "von_mises"), mine, strict=True):
        # shear may be greatest where the corner arc of a box begins, between the grid's points
        if abs(a - theirs[key]) > scale * (1e-2 if key == "shear" else 1e-3):
            yield f"{key} {a} and {theirs[key]}"


@pytest.mark.parametrize("name", sorted(p.stem for p in HERE.glob("*.toml")))
def test_case_file(name):
    """One of the cases written for this test."""
    faults, record = compare(read_case(HERE / f"{name}.toml"), meshed=True)
    assert not faults, "\n".join(faults)
    assert len(record["checks"]) > 100


@pytest.mark.parametrize("seed", range(16))
def test_random_joints(seed):
    """Arms and branches drawn at random; walls of tubes and boxes only where their tables hold."""
    faults, record = compare(case_from_text(case_text(seed)), meshed=False)
    beyond = {
        c["id"] for c in record["checks"] if c["kind"].startswith(("tab", "chord")) and not c["in_range"]
    }
    faults = [fault for fault in faults if fault.split(":")[0] not in beyond]
    assert not faults, "\n".join(faults)
    assert len(record["checks"]) > 60


def test_demo():
    """The demonstration vehicle, which flies free and leans; its frame is too large for the dense mesh."""
    faults, record = compare(read_case(DEMO), meshed=False)
    assert not faults, "\n".join(faults)
    assert len(record["checks"]) > 2000
