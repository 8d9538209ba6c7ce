"""Slips of the pen that the parser stops at: what most likely was meant is told with the line."""

import pytest

from strength.case import case_from_text
from strength.errors import CaseError

SLIPS = [
    ("a = 30 mm  # from the ball", 'stands in quotes: "30 mm"'),
    ('a = {at = "1 2 3 mm", material = S235JR}', 'stands in quotes: "S235JR"'),
    ("a = “1 2 3 mm”", "write straight quotes"),
    ('a = "1 2 3 mm', "a quote is missing"),
    ('a = {at = "1 2 3 mm", }', "leave out the comma before the }"),
    ('a = {at = "1 2 3 mm",', "what begins with { ends with }"),
    ('a: "1 2 3 mm"', "write = between a name and its value"),
    ('left seat = "1 2 3 mm"', 'stands in quotes: "left seat" = ...'),
    ("[points]", "this stands twice in the file"),
]


@pytest.mark.parametrize(("line", "told"), SLIPS)
def test_slip(line: str, told: str) -> None:
    """The line, its number and what to do stand in one message."""
    with pytest.raises(CaseError) as caught:
        case_from_text(f'title = "Bracken"\n[points]\n\n{line}\nb = "4 5 6 mm"\n', "trike.toml")
    message = str(caught.value)
    assert message.startswith("trike.toml: is not a case file in TOML: ")
    assert "line 4" in message
    assert told in message


def test_no_guess_without_ground() -> None:
    """Where nothing fits, the parser's own words stand alone."""
    with pytest.raises(CaseError) as caught:
        case_from_text('title = "Bracken"\n[points\n', "trike.toml")
    assert str(caught.value).endswith("'[points'")
