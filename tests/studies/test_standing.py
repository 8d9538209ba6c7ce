"""Which designs are looked at together where not all stand, and that none is taken for far that is near."""

import numpy as np
import pytest

from strength.frame.buckling import critical_multiplier
from strength.frame.solve import solve
from strength.library.data import cases_folder
from strength.sections import rebuilt, sizes_of
from strength.studies import standing
from strength.studies.evaluate import shapes_of
from strength.studies.prepared import prepare
from strength.studies.standing import far_from_buckling
from strength.studies.typed import Edit, typed_case


@pytest.mark.parametrize(("seed", "designs", "loads"), [(0, 1, 5), (1, 23, 1), (2, 40, 7), (3, 300, 2)])
def test_parts(seed, designs, loads):
    """Parts of a set hold all that is below its pole, once, and what has none past it gets smaller parts."""
    rng = np.random.default_rng(seed)
    near = rng.lognormal(-1.5, 1.0, (designs, loads))
    left, seen = [(np.arange(designs), np.arange(loads))], np.zeros((designs, loads), dtype=int)
    while left:
        some = left.pop()
        for part in standing._below_poles(near, some):
            assert np.all(near[np.ix_(*part)] < 1.0)
            assert part[0].size * part[1].size <= some[0].size * some[1].size
            if part[0].size == part[1].size == 1:
                seen[np.ix_(*part)] += 1
            smaller = standing._parts(near, part)
            assert all(own.size * under.size < part[0].size * part[1].size for own, under in smaller)
            left += smaller
    assert np.array_equal(seen, near < 1.0)


def test_a_few_soft_designs_among_many(monkeypatch):
    """The trike on braces of twenty sizes: by each one's own multipliers, in two looks at most."""
    file = typed_case(cases_folder() / "bracken-revised" / "case.toml")
    sizes = [f"tube {depth} x {wall:g} mm" for depth in range(10, 30, 4) for wall in (1.0, 1.25, 1.5, 2.0)]
    cases = [file.changed_case([Edit(("members", "brace", "left", "section"), size)]) for size in sizes]
    ready = prepare(cases[0])
    bars = rebuilt(ready.bars, ready.case.basis, sizes_of([shapes_of(case) for case in cases]))
    response = solve(ready.case, ready.layout, bars, ready.pushes, ready.plan)
    exact = critical_multiplier(ready.case, ready.layout, bars, ready.pushes, response, ready.buckling)
    looks = []
    plain = standing.stands
    monkeypatch.setattr(standing, "stands", lambda *given: looks.append(1) or plain(*given))
    found = far_from_buckling(ready, bars, response, ready.buckling, 16.7)
    assert np.array_equal(found, exact > 16.7)
    assert 0 < np.count_nonzero(~found.all(axis=1)) < 8
    assert len(looks) <= 2
