"""Advice: every change is tried on the whole case, and the set is proved by running the patched file."""

import tomllib
from pathlib import Path

import pytest

from strength.__main__ import main
from strength.case import case_from_text, read_case
from strength.library.data import cases_folder
from strength.run import run
from strength.studies.advise import Advice, advise
from strength.studies.levers import Change, levers
from strength.studies.patch import patched
from strength.studies.tried import edits_of
from strength.studies.typed import BLOCK, Edit, TypedCase, case_typed, typed_case
from tests.studies.cases import CRANE

HEAVY = CRANE.replace("90 55 -680 N", "150 90 -1350 N").replace("350 460 130 N", "700 920 260 N")


def proved(file: TypedCase, found: Advice) -> str:
    """The patched text, whose run gives the figures that were told; returns it."""
    text = patched(file, found.edits)
    alone = run(case_from_text(text))
    assert alone.rows[0].utilisation == pytest.approx(found.utilisation, rel=1e-12)
    assert found.cured == (alone.rows[0].utilisation <= 1.0 + 1e-9)
    return text


def test_crane_overloaded() -> None:
    """Several parts over: each gets a change that helps it, and one small set cures all."""
    file = case_typed(HEAVY)
    before = run(file.case)
    over = {row.part for row in before.rows if row.utilisation > 1.0 + 1e-9}
    found = advise(file)
    assert {each.part for each in found.over} == over
    assert found.utilisation_now == pytest.approx(before.rows[0].utilisation, rel=1e-12)
    for each in found.over:
        assert each.best is not None
        alone = run(file.changed_case(each.best.change.edits))
        own = max(row.utilisation for row in alone.rows if row.part == each.part)
        assert own == pytest.approx(each.best.own, rel=1e-12)
        assert own < each.utilisation
        assert each.cured == (own <= 1.0 + 1e-9)
        assert alone.rows[0].utilisation == pytest.approx(each.best.whole, rel=1e-12)
    assert found.cured
    proved(file, found)
    # no smaller set of these does: leaving any one out leaves something over
    for left in range(len(found.together)):
        rest = [change for n, change in enumerate(found.together) if n != left]
        edits = [edit for change in rest for edit in change.edits]
        assert run(file.changed_case(edits)).rows[0].utilisation > 1.0


def test_larger_tube_before_more_wall() -> None:
    """A slim strut in compression: a larger tube of the same wall is lighter than a thicker one."""
    text = (
        'title = "Bracken prop"\n[defaults]\nmaterial = {tube = "E235+N"}\n'
        '[members]\nprop = {from = "0 0 0 mm", to = "0 0 1500 mm", section = "tube 20 x 2 mm", '
        'from_end = "ball"}\n'
        '[supports]\nprop-from = "x y z rz"\nprop-to = "x y"\n'
        '[loads]\nweight = {forces = [{at = "prop-to", force = "0 0 -9 kN"}]}\n'
    )
    found = advise(case_typed(text))
    best = next(each for each in found.over if each.part == "prop").best
    assert best is not None
    size = best.change.edits[0].value
    assert size.endswith("x 2 mm")
    assert float(size.split()[1]) > 20.0


def test_weld_takes_a_larger_leg() -> None:
    """A thin weld on stout parts: its leg, and nothing heavier."""
    text = (
        'title = "Bracken hook"\n[defaults]\nmaterial = {bar = "S355J2", flat = "S355J2"}\n'
        'filler = "ER70S-6"\nprocess = "mig"\n'
        '[members]\nhook = {from = "0 0 0 mm", to = "90 0 0 mm", section = "bar 25 mm"}\n'
        '[supports]\nhook-from = "all"\n'
        '[welds]\nroot = {member = "hook", end = "from", leg = "2 mm", '
        'onto = {thickness = "12 mm", material = "S355J2"}}\n'
        '[loads]\nhang = {forces = [{at = "hook-to", force = "0 0 -2.4 kN"}]}\n'
    )
    file = case_typed(text)
    found = advise(file)
    assert [change.what for change in found.together] == ["root"]
    assert found.mass == 0.0
    assert found.cured
    assert tomllib.loads(proved(file, found))["welds"]["root"]["leg"] == found.together[0].edits[0].value


def test_nothing_over() -> None:
    """A sound case needs no change."""
    found = advise(typed_case(cases_folder() / "bracken-revised" / "case.toml"))
    assert (found.over, found.together, found.cured) == ((), (), True)


def test_the_hitch_arm() -> None:
    """An example case that is over its limits is cured by a patch that keeps its comments."""
    path = cases_folder() / "hitch-arm" / "case.toml"
    file = typed_case(path)
    found = advise(file)
    assert found.over
    text = proved(file, found)
    comments = [line.partition("#")[2] for line in file.text.splitlines() if "#" in line]
    assert all(comment in text for comment in comments)


@pytest.mark.parametrize(
    "text",
    [
        # blocks, lines, dotted names, quoted names, changes as blocks and as a list
        'title = "a"\n[[member]]\nname = "m"   # first\nsection = "x"\n\n[[change]]\npart = "weld y"\n',
        'title = "a"\nchange = [  # list\n  {part = "weld y"},\n]\n[members]\nm = {section = "x"}\n',
        'title = "a"\n[members]\n"m" = {section = "x"}  # last\n[members.q.left]\nsection = "y"\n',
    ],
)
def test_patches_keep_the_text(text: str) -> None:
    """What the edits mean and nothing else changes; every line that is not touched stays."""
    file = case_typed(text)
    way = ("member", 0, "section") if "[[member]]" in text else ("members", "m", "section")
    edits = [Edit(way, "tube 25 x 2 mm"), Edit(BLOCK, {"part": "weld x", "leg": "3 mm"})]
    new = patched(file, edits)
    assert tomllib.loads(new) == file.changed(edits)
    assert all(line in new.splitlines() for line in text.splitlines() if "section" not in line)
    assert new.count("#") == text.count("#")


def test_command_writes_the_patch(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`--write` gives a file that passes; the case itself stays, and is never written over."""
    path, new = tmp_path / "crane.toml", tmp_path / "new.toml"
    path.write_text(HEAVY, encoding="utf-8")
    assert main(["advise", str(path), "--write", str(new)]) == 1
    shown = capsys.readouterr().out
    assert "All together" in shown
    assert path.read_text(encoding="utf-8") == HEAVY
    assert run(read_case(new)).rows[0].utilisation <= 1.0
    assert "# the comment at the top stays" in new.read_text(encoding="utf-8")
    assert main(["advise", str(path), "--write", str(path)]) == 2
    assert "is the case file itself" in capsys.readouterr().err


def test_a_thread_is_cut_on_a_bar_that_holds_it() -> None:
    """A thread on the end of an axle brings the axle along where that is thinner, on both sides."""
    file = typed_case(cases_folder() / "bracken" / "case.toml")
    found = [
        change
        for change in levers(file, "axle-tail.right", "stud-bending")
        if " instead of M14" in change.how
    ]
    assert len(found) == 5
    for change in found:
        assert change.what == "axle-tail.left"
        case = file.changed_case(change.edits)
        (stud,) = (each for each in case.studs if each.name == "axle-tail.right")
        (bar,) = (each for each in case.members if each.name == stud.member)
        assert bar.shape.diameter >= stud.size.diameter > 14.0


def test_of_two_sizes_for_one_bar_the_larger_is_typed() -> None:
    """Changes that meet at one key: neither is made less."""
    way = ("members", "prop", "section")
    thin, thick = (
        Change(what="prop", how=size, edits=(Edit(way, size),), rank=0)
        for size in ("flat 40 x 8 mm", "flat 40 x 10 mm")
    )
    for pair in ((thin, thick), (thick, thin)):
        assert [edit.value for edit in edits_of(pair)] == ["flat 40 x 10 mm"]
