"""What a part resists alone, against one whole inverse of all freedoms."""

import numpy as np
import pytest

from strength.frame.alone import FREED, shifts
from strength.frame.layout import lay_out
from strength.frame.plan import plan
from tests.frame.random_frames import random_case


@pytest.mark.parametrize("seed", range(10))
def test_by_a_whole_inverse(seed):
    """Movements that strain one part alone, by 1: how far random rows see them, whatever their basis.

    A row sees of movements at right angles, of which each strains the part by 1, no more than the root of
    the sum of squares, and in the worst of them no less than that over the root of their number.
    """
    rng = np.random.default_rng(300 + seed)
    case = random_case(rng, count=10)
    layout = lay_out(case)
    ready = plan(case, layout)
    links, unknowns = ready.links, ready.reduction.unknowns
    expand = ready.reduction.expand(np.eye(unknowns))
    known = np.where(links.freedom[..., None] >= 0, expand[links.freedom], 0.0)
    size = np.linalg.norm(links.vec[:, :6], axis=2, keepdims=True)
    unit = links.vec[:, :6] / np.where(size > 0.0, size, 1.0)
    rows = np.where(links.exact[:, None, None], 0.0, unit @ known)
    flat = rows.reshape(-1, unknowns)
    give = np.linalg.inv(flat.T @ flat)
    watched = rng.normal(size=(links.freedoms, 5))
    seen = give @ (expand.T @ watched)
    parts = [np.arange(layout.first[n], layout.last[n] + 1) for n in range(layout.first.size)]
    found = shifts(ready, parts, watched)
    alone = 0
    for part, own in zip(parts, found, strict=True):
        strains = rows[part].reshape(-1, unknowns)
        values, vectors = np.linalg.eigh(strains @ give @ strains.T)
        free = vectors[:, values > 1.0 - FREED]
        expected = np.linalg.norm(free.T @ (strains @ seen), axis=0)
        alone += free.shape[1]
        assert np.all(own <= expected * (1.0 + 1e-9) + 1e-9)
        assert np.all(own >= expected / np.sqrt(max(free.shape[1], 1)) * (1.0 - 1e-9) - 1e-9)
    assert alone
