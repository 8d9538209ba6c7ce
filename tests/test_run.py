"""The whole flow refuses what it could not honestly answer."""

import pytest

from strength.case import case_from_text
from strength.errors import CaseError
from strength.run import run

POST = """
title = "post"
[supports]
foot = {at = "foot", hold = "all"}
[points]
foot = "0 0 0 mm"
top = "30 0 400 mm"
"""
PART = """
[members]
post = {from = "foot", to = "top", section = "tube 30 x 2 mm", material = "E235+N"}
"""
LOAD = """
[loads]
push = {forces = [{at = "top", force = "120 0 -50 N"}]}
"""


@pytest.mark.parametrize(("text", "told"), [(POST + PART, "loads: no load"), (POST, "members: no member")])
def test_nothing_to_check_is_an_error(text: str, told: str) -> None:
    """A case without a load, or without a part, is never "all under the limit"."""
    with pytest.raises(CaseError) as caught:
        run(case_from_text(text))
    assert told in str(caught.value)


def test_the_least_case_runs() -> None:
    """One post, one load: the moment at the foot is force times height, less the weight's lever."""
    outcome = run(case_from_text(POST + PART + LOAD))
    foot = outcome.response.reactions[0, 0, 0]
    assert foot == pytest.approx([-120, 0, 50, 0, -(120 * 400 + 50 * 30), 0], abs=1e-6)
    assert outcome.rows
