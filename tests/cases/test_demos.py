"""The demo cases: what their README files say is what the program says today.

These are statements of the README files, no evidence that a figure is right: the figures are checked
against the world elsewhere.
"""

from pathlib import Path

import pytest

from strength.case import read_case
from tests.cases.excerpts import ROOT, commands, excerpt, printed, readmes, told

DEMOS = ("bracken", "bracken-revised", "hitch-arm", "one-arm", "quad", "quay-cart")
LINES = {"bracken": 90, "one-arm": 20}  # how short they promise to be


@pytest.mark.parametrize("path", readmes(), ids=lambda path: path.parent.name)
def test_readme_shows_what_is_printed(path: Path) -> None:
    """Each excerpt is the output of the command above it; the exit code is the one told."""
    for command, blocks in commands(path.read_text(encoding="utf-8")):
        shown = printed(command["command"])
        assert str(shown.code) == command["code"], command["command"]
        for block in blocks:
            now = excerpt(shown.text, block["section"], block["lines"])
            assert told(block["text"]) == told(now), (
                "run python -m tests.cases.excerpts, and read what changed"
            )


@pytest.mark.parametrize("name", DEMOS)
def test_each_demo_is_told(name: str) -> None:
    """Each demo has a README of a page that runs it and shows what comes out."""
    path = ROOT / "cases" / name / "README.md"
    assert path in readmes()
    text = path.read_text(encoding="utf-8")
    run = list(commands(text))
    assert f"strength summary cases/{name}/case.toml" in {command["command"] for command, _ in run}
    assert len(run) == text.count("```sh\n")  # no command that is shown but not run
    shown = [block["text"] for _, blocks in run for block in blocks]
    assert len(shown) == text.count("```text") > 0
    assert all(len(block.splitlines()) > 5 for block in shown)
    assert len(text.splitlines()) <= 90


def test_twins_may_change_places() -> None:
    """Rows in another order and another side of the same place tell the same; another figure does not."""
    head = "What governs ──\n\npart        how it would fail     verdict\n─────\n"
    left = "arm (both)  Bends first           margin 0.31\n  tube        at hub.left, load 1   88 MPa\n"
    other = "lug         Buckles suddenly      margin 0.25\n"
    assert told(head + left + other) == told(head + other + left.replace("hub.left", "nut.left"))
    assert told(head + left + other) != told(head + left + other.replace("0.25", "0.26"))


@pytest.mark.parametrize(("name", "most"), LINES.items())
def test_short_demos_stay_short(name: str, most: int) -> None:
    """The front end fits in 90 lines, the bench arm in 20."""
    assert len((ROOT / "cases" / name / "case.toml").read_text(encoding="utf-8").splitlines()) <= most


def test_bracken_has_every_joint() -> None:
    """The trike meets every kind of joint that can be described."""
    case = read_case(ROOT / "cases" / "bracken" / "case.toml")
    for kind in (case.welds, case.bolts, case.studs, case.holes, case.shoulders, case.sleeves, case.clamps):
        assert kind
    assert not [each for each in case.not_checked if each.kind == "joint"]
