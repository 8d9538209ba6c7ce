"""Utilisations of all parts at once, against those that each part's own verdict works out."""

import pickle
from collections.abc import Iterator

import attrs
import numpy as np
import pytest

from strength.case import read_case
from strength.case.model import Strut
from strength.case.shape import Rigid
from strength.checks.context import Context
from strength.checks.register import every_use, every_verdict
from strength.checks.verdict import Late, LateRow, Row
from strength.library.data import cases_folder
from strength.run import run
from strength.sections import rebuilt, sizes_of
from strength.studies.batch import Batch, context_of
from strength.studies.evaluate import shapes_of
from strength.studies.prepared import prepare
from tests.checks.loaded import case_of, member
from tests.checks.loaded import context_of as context_by_hand

FACTORS = np.array([1.0, 0.93, 1.06])
NAMES = ("bracken-revised", "quad", "hitch-arm", "plates")


def contexts(name: str, method: str) -> Iterator[Context]:
    """Three designs of a case, walls thinned and thickened; all rows, then the worst of each part alone."""
    case = read_case(str(cases_folder() / name / "case.toml"))
    case = attrs.evolve(case, basis=attrs.evolve(case.basis, method=method))
    ready = prepare(case)
    sizes = sizes_of([shapes_of(case)] * FACTORS.size)
    hollow = sizes.wall < np.minimum(sizes.depth, sizes.width)
    sizes = attrs.evolve(sizes, wall=np.where(hollow, sizes.wall * FACTORS[:, None], sizes.wall))
    batch = Batch(prepared=ready, bars=rebuilt(ready.bars, case.basis, sizes), own=())
    for brief in (False, True):
        yield context_of(batch, buckling=False, brief=brief)


@pytest.mark.parametrize("method", ["allowable", "limit-state"])
@pytest.mark.parametrize("name", NAMES)
def test_each_as_told_in_full(name: str, method: str) -> None:
    """Both ways from the same forces, part by part."""
    whole, brief = contexts(name, method)
    every = every_verdict(whole)
    late = [verdict for verdict in every if isinstance(verdict, Late)]
    assert {"yielding", "rupture", "stability"} <= {verdict.kind for verdict in late}
    for verdict in late:
        told = verdict.known
        np.testing.assert_allclose(verdict.utilisation, told.utilisation, rtol=1e-9, err_msg=verdict.kind)
        covered = np.ones(told.demand.shape, dtype=bool)
        known, own = (covered if v.in_range is None else v.in_range for v in (told, verdict))
        np.testing.assert_array_equal(known, own, err_msg=f"{verdict.part}/{verdict.kind}")
        assert (verdict.part, verdict.kind) == (told.part, told.kind)
        for design in range(told.demand.shape[0]):
            own_rows, rows = (v.rows(whole.load_names, design) for v in (verdict, told))
            assert [(row.load, row.in_range) for row in own_rows] == [(r.load, r.in_range) for r in rows]
    one, other = every_use(whole), every_use(brief)
    assert one.names == other.names == tuple((verdict.part, verdict.kind) for verdict in every)
    np.testing.assert_allclose(one.use.max(axis=1), other.use.max(axis=1), rtol=1e-9)
    np.testing.assert_array_equal(one.covered, other.covered)
    late_ones = [n for n, verdict in enumerate(every) if isinstance(verdict, Late)]
    # points round a section miss its peak by up to 1e-4, which a bound may not
    assert (other.use[late_ones] <= one.use[late_ones] * (1.0 + 1.5e-4) + 1e-12).all()


def test_no_part_with_a_section() -> None:
    """A step and a shock: no rows."""
    case = case_of(
        {"pivot": (0.0, 300.0, 120.0), "foot": (240.0, 300.0, 120.0), "top": (240.0, 310.0, 420.0)},
        members=(member("step", "pivot", "foot", Rigid()),),
        struts=(Strut(name="shock", start="foot", end="top", stiffness=60.0),),
    )
    assert every_verdict(context_by_hand(case, {}, ["routine", "abuse"])) == ()


def test_a_late_row_is_its_whole_row() -> None:
    """Read by name, by place, compared, copied with a change or sent to another process."""
    case = read_case(str(cases_folder() / "hitch-arm" / "case.toml"))
    rows = run(case).rows
    late = [row for row in rows if isinstance(row, LateRow)]
    assert late
    for row in late:
        whole = row.whole
        assert type(whole) is Row
        assert whole.utilisation == pytest.approx(row.utilisation, rel=1e-9)
        assert (row.part, row.kind, row.load, row.in_range) == (
            whole.part,
            whole.kind,
            whole.load,
            whole.in_range,
        )
        assert (row.where, row.demand, row.limit, row.unit) == (
            whole.where,
            whole.demand,
            whole.limit,
            whole.unit,
        )
        assert (row.fails, row.source, row.note) == (whole.fails, whole.source, whole.note)
        assert row == whole
        assert whole == row
        assert (row != whole) is False
        assert hash(row) == hash(whole)
        assert tuple(row) == tuple(whole)
        assert row[3] == whole.where
        assert repr(row) == repr(whole)
        assert pickle.loads(pickle.dumps(row)) == whole  # noqa: S301 - our own bytes
        changed = row._replace(part="other")
        assert type(changed) is Row
        assert (changed.part, changed.where) == ("other", whole.where)
