"""The caution stands first and last on every face and nothing switches it off."""

import json

import pytest

from strength.report.cautions import CAUTIONS, HEADING, ONE_LINE
from strength.report.checks_table import checks_csv
from strength.report.console import as_text
from strength.report.drawing import drawing
from strength.report.page import summary_page
from strength.report.record import summary_record
from strength.report.record_text import text_of
from strength.report.sheet import sheet
from strength.report.summary import summary
from strength.report.view import look
from tests.report.outcomes import outcome

# What builders of one-off vehicles are customarily told (common practice, no source).
TOPICS = (
    ("estimate only",),
    ("not a proof of safety",),
    ("vehicle and cycle rules", "licensed engineer"),
    ("competent welder", "sample welds", "inspect"),
    ("proof-load", "ride gently", "inspect it again"),
    ("designer's choice", "not the rule of any authority"),
)


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic[0])
def test_cautions_say(topic: tuple[str, ...]) -> None:
    """One of the sentences says all of a topic."""
    told = [caution.lower() for caution in CAUTIONS]
    alone = [caution for caution in told if all(word in caution for word in topic)]
    assert alone, f"no caution speaks of {topic}"


def first_and_last(text: str, title: str) -> bool:
    """Whether nothing but a title stands before the first caution and nothing of weight after the last."""
    return text.count(HEADING) == 2 and text.index(HEADING) < text.index(title)


@pytest.mark.parametrize("everything", [False, True])
@pytest.mark.parametrize("width", [80, 120])
def test_console(width: int, *, everything: bool) -> None:
    """Before the first verdict and after the last word."""
    text = as_text(summary(look(outcome(), everything=everything)), width)
    assert first_and_last(text, "OVER THE LIMIT")
    lines = text.splitlines()
    assert lines.index(next(line for line in lines if HEADING in line)) < 6
    last = max(n for n, line in enumerate(lines) if HEADING in line)
    assert all(line[0] in "║╚" for line in lines[last:])


def test_load_sheet() -> None:
    """The load sheet carries it too."""
    told = outcome()
    assert first_and_last(as_text(sheet(told.case, told.loads, (), ()), 80), "Limits of the vehicle")


def test_page() -> None:
    """Before the first verdict, and nothing but the footer after the last."""
    page = summary_page(look(outcome()))
    assert first_and_last(page, "OVER THE LIMIT")
    assert "<section>" not in page[page.rindex(HEADING) :]


def test_drawing() -> None:
    """Above and below the structure."""
    svg = drawing(look(outcome()))
    assert svg.count(HEADING) == 2
    assert svg.index(HEADING) < svg.index("from the front") < svg.rindex(HEADING)


def test_record() -> None:
    """All sentences stand in the record, before any figure."""
    record = json.loads(text_of(summary_record(outcome())))
    assert record["cautions"] == list(CAUTIONS)
    assert list(record).index("cautions") < list(record).index("loads")


def test_csv() -> None:
    """Every line says it, whatever is cut off."""
    lines = checks_csv(outcome().rows).splitlines()[1:]
    assert lines
    assert all(ONE_LINE in line for line in lines)
