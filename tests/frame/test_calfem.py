"""Random frames a second way: calfem-python's beam3e, bar3e and spring1e (Lund University)."""

import attrs
import numpy as np
import pytest

from strength.frame.buckling import critical_multiplier
from strength.frame.layout import lay_out
from strength.frame.solve import solve
from tests.frame.building import ALL
from tests.frame.random_frames import random_bars, random_case, random_pushes
from tests.frame.second_way import Frame


def sizes_of(case, bars):
    """Sizes of the first design by part name."""
    fields = ("youngs", "shear", "area", "iy", "iz", "torsion")
    parts = [*case.members, *case.struts]
    return {
        part.name: attrs.make_class("Plain", fields)(*(getattr(bars, f)[0, n] for f in fields))
        for n, part in enumerate(parts)
    }


def sound(seed, **kinds):
    """A random case whose ball-ball members are struts' work: calfem has no spin hold."""
    rng = np.random.default_rng(seed)
    case = random_case(rng, **kinds)
    members = tuple(
        attrs.evolve(m, to_end="fixed") if m.from_end == "ball" and m.to_end in ("ball", "hinge") else m
        for m in case.members
    )
    members = tuple(
        attrs.evolve(m, hinge_axis=None) if "hinge" not in (m.from_end, m.to_end) else m for m in members
    )
    return rng, attrs.evolve(case, members=members)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("exact", [True, False])
def test_displacements_and_end_forces(seed, exact):
    """All displacements and all members' end forces, Euler-Bernoulli, to 1e-6 of the greatest."""
    rng, case = sound(seed, exact=exact)
    bars, pushes = random_bars(rng, case, slender=True), random_pushes(rng, case, loads=1)
    layout = lay_out(case)
    response = solve(case, layout, bars, pushes)
    other = Frame(case, sizes_of(case, bars))
    moved = other.solve(pushes.forces[0])
    theirs = moved[: 6 * len(case.points)].reshape(-1, 6)
    for part in (slice(0, 3), slice(3, 6)):
        top = np.abs(theirs[:, part]).max()
        assert response.displacements[0, 0, :, part] == pytest.approx(theirs[:, part], abs=1e-6 * top)
    greatest = np.abs(response.forces[0, 0]).max(axis=(0, 1))
    names = [m.name for m in case.members]
    beams = [piece for piece in other.pieces if piece[3] is not None]
    assert len(beams) >= 9
    for piece in beams:
        ends = other.end_forces(piece, moved) * np.array([[-1.0], [1.0]])
        ours = response.forces[0, 0, layout.first[names.index(piece[4])]]
        assert ours / greatest == pytest.approx(ends / greatest, abs=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_critical_multiplier(seed):
    """Members cut in six cubic elements: the linear eigenvalue lies within 0.2 % above ours."""
    rng, case = sound(seed, exact=seed % 2 == 1)
    case = attrs.evolve(case, supports=(attrs.evolve(case.supports[0], hold=ALL), *case.supports[1:]))
    bars, pushes = random_bars(rng, case, slender=True), random_pushes(rng, case, loads=2)
    layout = lay_out(case)
    response = solve(case, layout, bars, pushes)
    ours = critical_multiplier(case, layout, bars, pushes, response)[0]
    names = [part.name for part in (*case.members, *case.struts)]
    other = Frame(case, sizes_of(case, bars), cuts=6, struts_hold=True)
    for load in range(2):
        axial = {name: response.forces[0, load, layout.first[n], 0, 0] for n, name in enumerate(names)}
        theirs = other.multiplier(axial)
        assert ours[load] == pytest.approx(theirs, rel=2e-3)
        assert ours[load] <= theirs * (1 + 1e-7)
