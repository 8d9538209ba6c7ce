"""Cases made by rule are those that reading gives, and the proof against buckling is the multipliers' own."""

import numpy as np
import pytest

from strength.case.shape_text import parse
from strength.errors import StrengthError
from strength.frame.buckling import critical_multiplier
from strength.frame.solve import solve
from strength.library import find_metal, stock
from strength.library.data import cases_folder
from strength.sections import rebuilt, sizes_of
from strength.studies.derived import cases_of
from strength.studies.evaluate import shapes_of
from strength.studies.makeup import FIELDS
from strength.studies.prepared import prepare
from strength.studies.standing import far_from_buckling
from strength.studies.typed import Edit, case_typed, typed_case
from tests.second_way.random_cases import frame
from tests.studies.cases import CRANE
from tests.studies.test_evaluate import plain, resized

TUBES = tuple(size.text for size in stock("tube", find_metal("E235+N")))[::4]
SQUARES = tuple(size.text for size in stock("square", find_metal("S235JRH")))[::2]


@pytest.mark.parametrize(
    ("way", "sizes"),
    [
        (("members", "post", "section"), TUBES),  # a host: insets and legs follow it
        (("members", "brace", "section"), TUBES),  # a part welded on
        (("members", "arm", "section"), SQUARES),  # a box as host
        (("struts", "guy", "section"), TUBES),
    ],
)
def test_crane(way: tuple[str, ...], sizes: tuple[str, ...]) -> None:
    """Legs left to the walls, insets left to the faces; what cannot be built is told alike."""
    agree(case_typed(CRANE), way, sizes)


def test_trike() -> None:
    """A wishbone's tube: legs, cups and a cross tube between them, on both sides."""
    file = typed_case(cases_folder() / "bracken-revised" / "case.toml")
    agree(file, ("wishbones", "lower", "left", "tube"), TUBES)


def agree(file: object, way: tuple[str, ...], sizes: tuple[str, ...]) -> None:
    """By rule and read one by one."""
    edits = [(Edit(way, size),) for size in sizes]
    derived = cases_of(file, edits, [parse(size) for size in sizes])
    for own, edit in zip(derived, edits, strict=True):
        if isinstance(own, StrengthError):
            with pytest.raises(StrengthError) as told:
                file.changed_case(edit)
            assert str(told.value) == str(own)
            continue
        read = file.changed_case(edit)
        for name in ("members", "struts", "welds", "loads", "masses", *FIELDS):
            assert getattr(own, name) == getattr(read, name), name


@pytest.mark.parametrize("seed", range(4))
def test_far_from_buckling(seed: int) -> None:
    """Proved for a batch exactly where each design's own multipliers are above."""
    case = plain(frame(seed))
    rng = np.random.default_rng(50 + seed)
    cases = [resized(case, rng) for _ in range(7)]
    ready = prepare(case)
    bars = rebuilt(ready.bars, case.basis, sizes_of([shapes_of(each) for each in cases]))
    response = solve(case, ready.layout, bars, ready.pushes, ready.plan)
    exact = critical_multiplier(case, ready.layout, bars, ready.pushes, response)
    for multiplier in (0.5 * exact.min(), 1.001 * np.median(exact), 1.001 * exact.max(), 0.999 * exact.max()):
        if np.isfinite(multiplier):
            found = far_from_buckling(ready, bars, response, ready.buckling, float(multiplier))
            assert np.array_equal(found, exact > multiplier)
