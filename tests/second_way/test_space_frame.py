"""Random frames against the second way: moves, internal forces and reactions to 1e-8 of the greatest."""

import numpy as np
import pytest

from strength.frame.layout import lay_out
from strength.frame.solve import solve
from strength.sections import measure
from strength.vehicle.sheet import Pushes
from tests.second_way.random_cases import frame
from tests.second_way.space_frame import Model


def hand_loads(case):
    """(loads, points, 6) of the case's hand forces."""
    number = {p.name: k for k, p in enumerate(case.points)}
    out = np.zeros((len(case.loads), len(case.points), 6))
    for n, load in enumerate(case.loads):
        for hand in load.forces:
            out[n, number[hand.at]] += [*hand.force, *hand.moment]
    return out


def determinate(seed):
    """The first random frame from this seed on whose rigid parts share no load in a closed loop."""
    while True:
        case = frame(seed)
        if Model(case, measure(case)).is_determinate():
            return case
        seed += 1000


@pytest.mark.parametrize("seed", range(40))
def test_random_frames(seed):
    """Every segment's end forces, every reaction, every translation."""
    case = determinate(seed)
    bars = measure(case)
    forces = hand_loads(case)
    layout = lay_out(case)
    found = solve(case, layout, bars, Pushes(forces=forces, gauge=None, notes=((),) * len(case.loads)))
    model = Model(case, bars)
    for n in range(len(case.loads)):
        moves, inner, reactions, left = model.results(forces[n])
        assert left < 1e-9
        mine = found.displacements[0, n, :, :3]
        assert np.abs(mine - moves[:, :3]).max() <= 1e-8 * max(np.abs(moves[:, :3]).max(), 1e-6)
        force = max(np.abs(f[:, :3]).max() for f in inner.values())
        moment = max(np.abs(f[:, 3:]).max() for f in inner.values())
        for (bar, piece), expected in inner.items():
            got = found.forces[0, n, layout.first[bar] + piece]
            assert np.abs(got[:, :3] - expected[:, :3]).max() <= 1e-8 * force
            assert np.abs(got[:, 3:] - expected[:, 3:]).max() <= 1e-8 * moment
        assert np.abs(found.reactions[0, n] - reactions)[:, :3].max() <= 1e-8 * force
        assert np.abs(found.reactions[0, n] - reactions)[:, 3:].max() <= 1e-8 * moment
