"""A library file of the user's own: named on the command line, and told in the report."""

import json
from pathlib import Path

import pytest

from strength.__main__ import main

TUBE = """
[material.my-tube]
kind = "steel"
modulus = "210 GPa"
poisson = 0.3
density = "7850 kg/m^3"
yield = "300 MPa"
ultimate = "400 MPa"
elongation = 0.2
weldable = true
yield_welded = "250 MPa"
ultimate_welded = "380 MPa"
source = "mill certificate 7"
"""
CASE = """
title = "post"
[supports]
foot = {at = "foot", hold = "all"}
[points]
foot = "0 0 0 mm"
top = "30 0 400 mm"
[members]
post = {from = "foot", to = "top", section = "tube 30 x 2 mm", material = "my-tube"}
[loads]
push = {forces = [{at = "top", force = "120 0 -50 N"}]}
"""


def test_a_named_library(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """300 MPa over the 1.67 of AISC 360 ASD, and the report says whose figures they are."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "nothing"))
    monkeypatch.setenv("STRENGTH_LIBRARY", "")
    (tmp_path / "mine.toml").write_text(TUBE, encoding="utf-8")
    case = tmp_path / "post.toml"
    case.write_text(CASE, encoding="utf-8")
    assert main(["summary", str(case)]) == 2
    assert "my-tube" in capsys.readouterr().err
    code = main(["summary", str(case), "--json", "-", "--library", str(tmp_path / "mine.toml")])
    record = json.loads(capsys.readouterr().out)
    (row,) = (row for row in record["checks"] if row["kind"] == "yielding")
    assert row["limit"] == pytest.approx(300.0 / 1.67)
    assert code in (0, 1, 3)
    (told,) = (entry["text"] for entry in record["read_as"] if entry["part"] == "my-tube")
    assert "your own" in told
    assert "mill certificate 7" in told
