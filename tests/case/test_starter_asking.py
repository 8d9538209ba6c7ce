"""Questions at a terminal: Enter keeps, nonsense is asked again, options are not asked."""

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from strength.__main__ import main
from strength.case.starter import ask
from strength.case.starter.questions import QUESTIONS, asked_of
from strength.errors import AnswerError


def asked(typed: list[str], **given: str) -> tuple[dict[str, str], str]:
    """Answers after these lines were typed, and all that was shown."""
    lines = iter(typed)
    shown: list[str] = []
    answers = ask(given, lambda: next(lines, ""), shown.append)
    assert next(lines, None) is None, "more was typed than asked"
    return answers.texts, "".join(shown)


def test_enter_keeps_all() -> None:
    """Enter after Enter gives what the questions show in brackets."""
    found, shown = asked(["\n"] * (1 + len(asked_of("trike"))))
    assert found["what"] == "trike"
    for question in asked_of("trike"):
        assert f"{question.key} [{found[question.key]}]: " in shown


def test_nonsense_is_asked_again() -> None:
    """A wrong answer is told and asked once more; the next one counts."""
    rest = ["\n"] * (len(asked_of("arm")) - 1)
    found, shown = asked(["bike\n", "arm\n", "780\n", "9 m\n", "31 in\n", *rest])
    assert found["track"] == "787.4 mm"  # 31 x 25.4
    assert shown.count("track [780 mm]: ") == 3
    assert "! '780' has no unit" in shown
    assert "! '9 m' is out of the sensible range: 500 to 1200 mm" in shown
    assert "! 'bike' is none of" in shown


def test_options_are_not_asked() -> None:
    """What was given as an option is used and not asked."""
    typed = ["\n"] * (len(asked_of("plate")) - 2)
    found, shown = asked(typed, what="plate", axle="bar 18 mm", process="tig")
    assert (found["axle"], found["process"]) == ("bar 18 mm", "tig")
    assert "axle [" not in shown
    assert "What is it?" not in shown


def test_answers_wrong_together_are_asked_again() -> None:
    """An axle too thick for its plate: both are asked again."""
    others = {q.key: q.kept["plate"] for q in asked_of("plate") if q.key not in ("axle", "plate")}
    found, shown = asked(["bar 40 mm\n", "flat 60 x 10 mm\n", "bar 25 mm\n", "\n"], what="plate", **others)
    assert found["axle"] == "bar 25 mm"
    assert "more than half as thick as the plate" in shown


@pytest.mark.parametrize(
    ("typed", "given"),
    [
        (["\n", "\n"], {}),
        ([], {"what": "arm"}),
        ([], {"track": "7 mm"}),
        ([], {"what": "cart", "lean": "5 deg"}),
    ],
)
def test_end_of_input_and_wrong_options(typed: list[str], given: dict[str, str]) -> None:
    """The end of the input, and an option that cannot be used, end the questions."""
    with pytest.raises(AnswerError):
        asked(typed, **given)


def test_questions_fit_the_screen() -> None:
    """No line over 79 columns, answers included."""
    _, shown = asked(["\n"] * (1 + len(asked_of("trike"))))
    assert max(map(len, shown.replace("]: ", "]: \n").splitlines())) <= 79
    assert max(len(line) for question in QUESTIONS for line in question.asks.splitlines()) <= 79


def test_at_a_terminal(tmp_path: Path) -> None:
    """The command asks on a terminal, writes the case and the schema, and shows the summary."""
    ours, theirs = pty.openpty()
    try:
        with subprocess.Popen(
            [sys.executable, "-m", "strength", "new", "mine.toml", "--what", "arm"],
            stdin=theirs,
            stdout=subprocess.PIPE,
            stderr=theirs,
            cwd=tmp_path,
        ) as running:
            os.write(ours, b"\n" * len(asked_of("arm")))
            assert running.stdout is not None
            printed = running.stdout.read().decode()
            assert running.wait(30) == 0
    finally:
        os.close(theirs)
        os.close(ours)
    assert "strength summary mine.toml" in printed
    assert "[780 mm]" not in printed
    assert sorted(path.name for path in tmp_path.iterdir()) == ["mine.toml", "strength.schema.json"]


def test_without_a_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Options and defaults make the case; the record tells the answers and the files."""
    target = tmp_path / "mine.toml"
    assert main(["new", str(target), "--what", "arm", "--track", "61 cm", "--json", "-"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert record["answers"]["track"] == "610 mm"
    assert record["written"] == [str(target), str(tmp_path / "strength.schema.json")]
    assert target.read_text(encoding="utf-8") == record["text"]


def test_wrong_option_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2, the message names the option, no file."""
    assert main(["new", str(tmp_path / "mine.toml"), "--track", "780"]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.startswith("strength: --track: '780' has no unit")
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    """Neither the case nor a schema that lies there already, nor what a broken link names."""
    schema = tmp_path / "strength.schema.json"
    schema.write_text("mine", encoding="utf-8")
    assert main(["new", str(tmp_path / "one.toml"), "--what", "plate"]) == 0
    assert schema.read_text(encoding="utf-8") == "mine"
    link = tmp_path / "link.toml"
    link.symlink_to(tmp_path / "nowhere.toml")
    assert main(["new", str(link), "--what", "plate"]) == 2
    assert not (tmp_path / "nowhere.toml").exists()
