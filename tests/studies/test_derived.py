"""Cases made by rule are those that reading gives, and the proof against buckling is the multipliers' own."""

from collections.abc import Callable, Collection

import numpy as np
import pytest

from strength.case.model import Case
from strength.case.shape_text import parse
from strength.errors import StrengthError
from strength.frame.buckling import critical_multiplier
from strength.frame.solve import solve
from strength.library import find_metal, stock
from strength.library.data import cases_folder
from strength.sections import rebuilt, sizes_of
from strength.sections.sizes import SIZED
from strength.studies.candidates import ANY, sections
from strength.studies.derived import cases_of
from strength.studies.evaluate import shapes_of
from strength.studies.locate import section_spot
from strength.studies.makeup import FIELDS
from strength.studies.prepared import prepare
from strength.studies.standing import far_from_buckling
from strength.studies.typed import Edit, TypedCase, Way, case_typed, typed_case
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


@pytest.mark.parametrize("name", ["bracken-revised", "one-arm", "quad", "quay-cart", "wall-as-bought"])
def test_demos(name: str) -> None:
    """Some sizes of every part of the demos: the most and the least slender, and one by chance."""
    file = typed_case(cases_folder() / name / "case.toml")
    rng = np.random.default_rng(len(name))
    for part in (*file.case.members, *file.case.struts):
        if isinstance(part.shape, SIZED) and not part.name.endswith(".right"):
            spot = section_spot(file, part)
            sizes = sections(part.shape, spot.now, file.case.metals[part.material], od=ANY, wall=ANY)
            slender = [
                values[0] / values[-1] for values in (tuple(vars(parse(size)).values()) for size in sizes)
            ]
            some = {int(np.argmin(slender)), int(np.argmax(slender)), int(rng.integers(len(sizes)))}
            agree(file, spot.way, sizes, some, spot.edits)


def test_sleeve() -> None:
    """A spine whose bore is too narrow for the boom only where it is both narrow and thick.

    The lightest and the heaviest take the boom of 42 mm, so that neither of the sizes refuses by itself.
    """
    file = typed_case(cases_folder() / "bracken-revised" / "case.toml")
    sizes = ("tube 45 x 1.5 mm", "tube 50 x 1.5 mm", "tube 45 x 3 mm", "tube 55 x 2 mm", "tube 60 x 3 mm")
    told = [isinstance(each, StrengthError) for each in agree(file, ("members", "spine", "section"), sizes)]
    assert told == [bore < 41.5 for bore in (42.0, 47.0, 39.0, 51.0, 54.0)]  # half a millimetre is pressed in


def agree(
    file: TypedCase,
    way: Way,
    sizes: tuple[str, ...],
    some: Collection[int] = (),
    edits_of: Callable[[str], tuple[Edit, ...]] | None = None,
) -> list[Case | StrengthError]:
    """By rule, and some of them, or all, read one by one."""
    edits = [edits_of(size) if edits_of else (Edit(way, size),) for size in sizes]
    derived = cases_of(file, edits, [parse(size) for size in sizes])
    for n in sorted(some) or range(len(sizes)):
        own = derived[n]
        if isinstance(own, StrengthError):
            with pytest.raises(StrengthError) as told:
                file.changed_case(edits[n])
            assert str(told.value) == str(own)
            continue
        read = file.changed_case(edits[n])
        for name in ("members", "struts", "welds", "loads", "masses", "wheels", "tows", *FIELDS):
            assert getattr(own, name) == getattr(read, name), name
    return derived


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
