"""Many sizes of one part: what the others carry is looked at once a kind of designs, each as by itself."""

import numpy as np
import pytest

from strength.case.model import Case
from strength.checks.kinds import still_bars
from strength.errors import StrengthError
from strength.library.data import cases_folder
from strength.run import run
from strength.sections import rebuilt, sizes_of
from strength.studies.batch import Batch, context_of
from strength.studies.evaluate import evaluate, shapes_of
from strength.studies.prepared import prepare
from strength.studies.typed import Edit, typed_case
from tests.studies.test_evaluate import same

FILE = cases_folder() / "bracken-revised" / "case.toml"
TUBES = [f"tube {od} x {wall} mm" for od in (10, 12, 15, 18, 22, 25, 28, 30) for wall in (1, 1.5, 2, 2.5)]
SQUARES = [f"square {od} x {wall} mm" for od in (15, 18, 20, 25) for wall in (1.5, 2, 2.5, 3)]
PLATES = [f"flat 60 x {thick} mm" for thick in (8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 25)]
WAYS = {
    "brace": (("members", "brace", "left", "section"), TUBES[:16]),
    "spreader": (("wishbones", "lower", "left", "spreader_tube"), SQUARES),
    "knuckle": (("knuckles", "knuckle", "left", "plate"), PLATES),
}


def sized(name: str) -> list[Case]:
    """The case with every size of a part it can be built with."""
    way, sizes = WAYS[name]
    file = typed_case(FILE)
    made = []
    for size in sizes:
        try:
            made.append(file.changed_case([Edit(way, size)]))
        except StrengthError:
            continue
    return made


@pytest.mark.parametrize("name", WAYS)
def test_each_as_by_itself(name: str) -> None:
    """Every row of every design as a run of it alone has it."""
    cases = sized(name)
    found = evaluate(cases)
    assert len(cases) - len(found.failed) >= 12
    for n in range(0, len(cases), 3):
        if n not in found.failed:
            same(found, n, run(cases[n]))


def test_kinds_are_told_apart() -> None:
    """Thin braces bend more as the frame presses on them: these designs stand for themselves."""
    cases = sized("brace")
    ready = prepare(cases[0])
    bars = rebuilt(ready.bars, ready.case.basis, sizes_of([shapes_of(case) for case in cases]))
    context = context_of(Batch(prepared=ready, bars=bars), brief=True)
    alike = context.response.alike
    assert alike is not None
    raised = np.any(context.amplified > 1.0, axis=1)
    assert 0 < raised.sum() < len(cases) / 3
    assert alike.first.size == 1 + raised.sum()
    assert np.array_equal(alike.kind[~raised], np.zeros((~raised).sum()))
    still = still_bars(bars, ready.layout, context.response)
    assert not still[ready.bars.names.index("brace.left")]
    assert still[ready.bars.names.index("stay.left")]
    segments = np.flatnonzero(alike.still)
    of_kind = context.response.forces[alike.first][alike.kind]
    assert np.array_equal(context.response.forces[:, :, segments], of_kind[:, :, segments])
