"""How a part fails that nothing presses together: it bends; buckling is for what is pressed or tips over."""

import pytest

from strength.case import case_from_text
from strength.run import run

TEXT = """
title = "mast"
[points]
foot = "0 0 0 mm"
top = "40 25 700 mm"
[supports]
foot = "all"
[members]
mast = {{from = "foot", to = "top", section = "{section}", material = "E235+N", up = "1 0 0"}}
[loads]
aside = {{forces = [{{at = "top", force = "0 35 -1.25 N"}}]}}
pressed = {{forces = [{{at = "top", force = "10 35 -900 N"}}]}}
"""


@pytest.mark.parametrize(("section", "aside"), [("tube 30 x 2 mm", "bends"), ("flat 60 x 8 mm", "buckles")])
def test_words_for_stability(section, aside):
    """35 N aside less 1.25 N down is square to the mast: 35 x 25 = 1.25 x 700. A flat may still tip over."""
    rows = run(case_from_text(TEXT.format(section=section))).rows
    told = {row.load: row for row in rows if row.kind == "stability"}
    assert told["aside"].fails == aside
    assert told["pressed"].fails == "buckles"
    assert ("nothing presses" in told["aside"].note) is (aside == "bends")
