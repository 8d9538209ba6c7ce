"""What the README shows is what the program says."""

import re
from pathlib import Path

import pytest

from strength.case import case_from_text
from strength.run import run
from tests.cases.excerpts import BLOCK, excerpt, printed, told

README = Path(__file__).parents[1] / "README.md"
TEXT = README.read_text(encoding="utf-8")
FROM = {"What governs": "summary", "Limits of the vehicle": "loads"}


@pytest.mark.parametrize("block", list(BLOCK.finditer(TEXT)), ids=lambda block: block["section"])
def test_excerpts_are_real_output(block: re.Match[str]) -> None:
    """The excerpts stand, line by line, in what the demo prints at 80 columns."""
    command = FROM[block["section"]]
    shown = printed(f"strength {command} cases/bracken/case.toml")
    now = excerpt(shown.text, block["section"], block["lines"])
    assert told(now.strip()) == told(block["text"].strip())


def test_there_are_excerpts() -> None:
    """Real output stands in it."""
    assert {block["section"] for block in BLOCK.finditer(TEXT)} == set(FROM)


def test_the_example_runs() -> None:
    """The front corner of the README is a whole case: it reads, and every part is checked."""
    (example,) = re.findall(r"```toml\n(.*?)```", TEXT, re.DOTALL)
    outcome = run(case_from_text(example))
    assert {"lower-front", "upper-rear", "plate", "foot", "steer"} <= {row.part for row in outcome.rows}


def test_commands_told_exist() -> None:
    """Every command of the table is one of the program's, and the other way round."""
    from strength.cli import COMMANDS

    named = set(re.findall(r"^\| `strength (\w+)", TEXT, re.MULTILINE))
    named |= set(re.findall(r"^\| `strength \w+[^|]*`, `strength (\w+)", TEXT, re.MULTILINE))
    assert named == {command.name for command in COMMANDS}
