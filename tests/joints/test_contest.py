"""Loads in contest: the greatest of them comes out as without, whichever shortcut leaves the others out."""

import numpy as np
import pytest

from strength.joints.contest import ALONE, Contest
from strength.joints.forms import Forms
from strength.joints.peak import FEW, peaks
from strength.joints.traction import pull
from tests.joints.bench import weld
from tests.joints.lines import around, line, round_line, saddle, together

LINES = {
    "circle": round_line(33.0),
    "saddle": saddle(25.0, 40.0, 71.0),
    "steep saddle": saddle(30.0, 30.3, 82.0),
    "as good as equal": saddle(29.9999, 30.0, 66.0),
    "box": around("Box", 40.0, 25.0, 2.5),
    "flat": around("Flat", 40.0, 6.0),
    "lines": line((3.0, -20.0, 9.0, 31.0), (-14.0, 8.0, -2.0, -25.0)),
}
LOADS, SETS = 9, 7
SIZES = np.array([1.0, 0.8, 0.5, 21.0, 17.0, 12.0])
PLAIN = [(1, 1, 1, 0), (3, 3, 1, 0), (1, 3, 3, 0), (0.4, 1.2, 0, 0), (3, 0, 0, 0)]
MIXED = [(2, 3, 2, 2), (2, 3, 2, -2), (0.5, 0, 0.5, 1), (0.5, 0, 0.5, -1)]


@pytest.mark.parametrize("found", LINES.values(), ids=LINES)
@pytest.mark.parametrize("forms", [PLAIN, MIXED], ids=["plain", "mixed"])
def test_greatest_in_contest_is_the_greatest(found, forms):
    """Sets of nine loads of very unlike sizes, one set without any force, weighted unlike."""
    rng = np.random.default_rng(4)
    load = rng.normal(size=(SETS, LOADS, 6)) * SIZES * rng.uniform(0.1, 1.0, (SETS, LOADS, 1)) ** 2
    load[2] = 0.0
    load[3, 1:4] = 0.0
    through = pull(found, load.reshape(1, -1, 6), [weld()], tuple(map(str, range(LOADS))))
    scales = rng.uniform(0.5, 2.0, (1, len(forms)))
    group = Forms(forms=np.array(forms, dtype=float)[None, :, None], scales=scales)
    factor = rng.uniform(0.5, 2.0, LOADS)
    every = peaks(found, through, [group], ALONE)[0].height.reshape(SETS, LOADS) * factor
    few = peaks(found, through, [group], Contest(rivals=LOADS, factor=factor[None]))[0]
    height = few.height.reshape(SETS, LOADS) * factor
    assert height.max(axis=1) == pytest.approx(every.max(axis=1), rel=1e-12)
    assert np.all(height <= every * (1.0 + 1e-9))
    loaded = every.max(axis=1) > 0.0
    assert np.all(height.argmax(axis=1)[loaded] == every.argmax(axis=1)[loaded])


@pytest.mark.parametrize("found", LINES.values(), ids=LINES)
@pytest.mark.parametrize("forms", [PLAIN, MIXED], ids=["plain", "mixed"])
def test_rows_of_one_design_each(found, forms):
    """The same where every design has a row of its own, more of them than are looked at together."""
    rows = 4 * FEW
    every_line = together(*[found] * rows)
    rng = np.random.default_rng(6)
    load = rng.normal(size=(rows, LOADS, 6)) * SIZES * rng.uniform(0.1, 1.0, (rows, LOADS, 1)) ** 2
    load[2] = 0.0
    load[3, 1:4] = 0.0
    through = pull(every_line, load, [weld()], tuple(map(str, range(LOADS))))
    group = Forms(
        forms=np.array(forms, dtype=float)[None, :, None], scales=rng.uniform(0.5, 2.0, (rows, len(forms)))
    )
    factor = rng.uniform(0.5, 2.0, (1, LOADS))
    every = peaks(every_line, through, [group], ALONE)[0].height * factor
    height = peaks(every_line, through, [group], Contest(rivals=LOADS, factor=factor))[0].height * factor
    assert height.max(axis=1) == pytest.approx(every.max(axis=1), rel=1e-12)
    assert np.all(height <= every * (1.0 + 1e-9))
    loaded = every.max(axis=1) > 0.0
    assert np.all(height.argmax(axis=1)[loaded] == every.argmax(axis=1)[loaded])


def test_scales_that_go_with_the_load():
    """Lines alike in all designs: the scales of each design go with its loads."""
    found = LINES["saddle"]
    rng = np.random.default_rng(8)
    load = rng.normal(size=(1, SETS * LOADS, 6)) * SIZES
    through = pull(found, load, [weld()], tuple(map(str, range(LOADS))))
    own = np.repeat(rng.uniform(0.3, 3.0, (1, SETS, len(PLAIN))), LOADS, axis=1)
    group = Forms(forms=np.array(PLAIN, dtype=float)[None, :, None], scales=own, sizes=own * 1.5)
    every = peaks(found, through, [group], ALONE)[0]
    few = peaks(found, through, [group], Contest(rivals=LOADS, factor=np.ones((1, LOADS))))[0]
    worst = every.height.reshape(SETS, LOADS).argmax(axis=1)
    assert np.all(few.height.reshape(SETS, LOADS).argmax(axis=1) == worst)
    for told in ("height", "value"):
        one, other = (getattr(peak, told).reshape(SETS, LOADS) for peak in (few, every))
        assert one[range(SETS), worst] == pytest.approx(other[range(SETS), worst], rel=1e-12)
