"""Laws of linear frames, on random frames of every kind of part."""

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.frame import solve as solving
from strength.frame.layout import lay_out
from strength.frame.response import at_places
from strength.frame.solve import solve
from tests.frame.building import ALL
from tests.frame.random_frames import random_bars, random_case, random_pushes, turned

seeds = st.integers(0, 2**32 - 1)
several = settings(max_examples=12, deadline=None)


def close(one, two, rel=1e-7):
    """Equal to `rel` of the greatest value, over the last axis' forces and moments apart."""
    for part in (slice(0, 3), slice(3, 6)):
        a, b = np.asarray(one)[..., part], np.asarray(two)[..., part]
        assert a == pytest.approx(b, rel=0, abs=rel * max(float(np.abs(b).max()), 1e-12))


def answer(case, bars, pushes):
    """Response of a case."""
    return solve(case, lay_out(case), bars, pushes)


def turn_of(rng):
    """A random proper rotation."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return q * np.sign(np.linalg.det(q))


@given(seeds)
@several
def test_superposition_and_scaling(seed):
    """Loads a x one + b x other give a x and b x their answers."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=2)
    a, b = rng.normal(size=2)
    one, both = (
        answer(case, bars, pushes),
        attrs.evolve(pushes, forces=(a * pushes.forces[0] + b * pushes.forces[1])[None], notes=((),)),
    )
    together = answer(case, bars, both)
    for field in ("displacements", "forces", "reactions"):
        own = getattr(one, field)
        close(getattr(together, field)[:, 0], a * own[:, 0] + b * own[:, 1])


@given(seeds)
@several
def test_turning_the_structure_in_space(seed):
    """Turned and moved as a whole, internal forces stay and displacements turn along."""
    rng = np.random.default_rng(seed)
    case = attrs.evolve(random_case(rng), supports=())
    held = attrs.evolve(random_case(np.random.default_rng(seed)).supports[0], hold=ALL)
    case = attrs.evolve(
        case,
        supports=(held,),
        members=tuple(attrs.evolve(m, up=m.up or (0.3, 0.2, 1.0)) for m in case.members),
        struts=tuple(attrs.evolve(s, up=(0.3, 0.2, 1.0)) for s in case.struts),
    )
    turn = turn_of(rng)
    other = turned(case, turn, rng.normal(size=3) * 1000)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case)
    twist = np.kron(np.eye(2), turn)
    here = answer(case, bars, pushes)
    there = answer(other, bars, attrs.evolve(pushes, forces=pushes.forces @ twist.T))
    close(there.forces, here.forces)
    close(there.displacements, here.displacements @ twist.T)
    close(there.reactions, here.reactions @ twist.T)


@given(seeds, st.floats(0.05, 0.95))
@several
def test_splitting_a_member_changes_nothing(seed, share):
    """A point on a member's line, as its `via` or as the end of two members, leaves all forces."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    number = next(n for n, m in enumerate(case.members) if m.name.startswith("m"))
    whole = case.members[number]
    places = {p.name: np.array(p.at) for p in case.points}
    middle = (1 - share) * places[whole.start] + share * places[whole.end]
    added = attrs.evolve(case.points[0], name="new", at=tuple(middle))
    points = (*case.points[:2], added, *case.points[2:])
    via = attrs.evolve(
        case,
        points=points,
        members=tuple(attrs.evolve(m, via=("new",)) if m is whole else m for m in case.members),
    )
    halves = (attrs.evolve(whole, end="new"), attrs.evolve(whole, name="half", start="new"))
    two = attrs.evolve(
        case,
        points=points,
        members=(*(m for m in case.members if m is not whole), *halves),
    )
    sizes = random_bars(rng, case)
    pushes = random_pushes(rng, case)
    split_push = attrs.evolve(
        pushes, forces=np.insert(pushes.forces, 2, np.zeros((pushes.forces.shape[0], 6)), axis=1)
    )
    order = [n for n in range(len(case.members)) if n != number] + [number, number]
    order += list(range(len(case.members), len(case.members) + len(case.struts)))
    split_sizes = attrs.evolve(
        sizes,
        member_count=sizes.member_count + 1,
        **{
            name: getattr(sizes, name)[:, order]
            for name in ("area", "iy", "iz", "torsion", "shear_y", "shear_z", "youngs", "shear")
        },
    )
    layouts = [lay_out(c) for c in (case, via, two)]
    plain = solve(case, layouts[0], sizes, pushes)
    with_via = solve(via, layouts[1], sizes, split_push)
    in_two = solve(two, layouts[2], split_sizes, split_push)
    kept = [n for n in range(len(points)) if n != 2]
    for other in (with_via, in_two):
        close(other.displacements[:, :, kept], plain.displacements)
        close(other.reactions, plain.reactions)
    bar = np.array([number, number])
    ends = np.array([[0.0, layouts[0].bar_length[number]]])
    later = np.array([1, 0])
    close(at_places(layouts[1], with_via, bar, ends, later), at_places(layouts[0], plain, bar, ends, later))
    first, second = layouts[2].first[len(case.members) - 1], layouts[2].first[len(case.members)]
    close(in_two.forces[:, :, first, 0], plain.forces[:, :, layouts[0].first[number], 0])
    close(in_two.forces[:, :, second, 1], plain.forces[:, :, layouts[0].first[number], 1])


@given(seeds)
@several
def test_order_of_points_and_parts_never_matters(seed):
    """Points, members and struts in another order: the same answer for each by name."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case)
    points = rng.permutation(len(case.points))
    members = rng.permutation(len(case.members))
    other = attrs.evolve(
        case,
        points=tuple(case.points[n] for n in points),
        members=tuple(case.members[n] for n in members),
    )
    order = [*members, *range(len(case.members), len(case.members) + len(case.struts))]
    sizes = {
        name: getattr(bars, name)[:, order]
        for name in ("area", "iy", "iz", "torsion", "shear_y", "shear_z", "youngs", "shear")
    }
    here = answer(case, bars, pushes)
    there = answer(other, attrs.evolve(bars, **sizes), attrs.evolve(pushes, forces=pushes.forces[:, points]))
    close(there.displacements, here.displacements[:, :, points])
    close(there.forces, here.forces[:, :, order])


@given(seeds)
@several
def test_reciprocity(seed):
    """Betti: the work of one load on the other's displacements is mutual."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=2)
    moved = answer(case, bars, pushes).displacements[0]
    one, other = np.sum(pushes.forces[0] * moved[1]), np.sum(pushes.forces[1] * moved[0])
    own = np.sum(pushes.forces[0] * moved[0])
    assert own > 0.0
    assert one == pytest.approx(other, abs=1e-8 * own)


@given(seeds)
@several
def test_reactions_balance_the_loads(seed):
    """Forces and moments about a skew point sum to zero."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    pushes = random_pushes(rng, case)
    response = answer(case, random_bars(rng, case), pushes)
    places = np.array([p.at for p in case.points])
    index = [p.name for p in case.points]
    held = np.array([places[index.index(s.at)] for s in case.supports])
    about = rng.normal(size=3) * 300
    for load, push in enumerate(pushes.forces):
        reaction = response.reactions[0, load]
        force = push[:, :3].sum(0) + reaction[:, :3].sum(0)
        moment = push[:, 3:].sum(0) + reaction[:, 3:].sum(0)
        moment += np.cross(places - about, push[:, :3]).sum(0)
        moment += np.cross(held - about, reaction[:, :3]).sum(0)
        assert force == pytest.approx(np.zeros(3), abs=1e-8 * np.abs(push[:, :3]).max())
        assert moment == pytest.approx(np.zeros(3), abs=1e-8 * np.abs(push[:, 3:]).max())


@given(seeds)
@several
def test_every_point_is_in_balance(seed):
    """End forces of all parts at a point sum to its loads and reactions, rigid parts included."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    layout, pushes = lay_out(case), random_pushes(rng, case)
    response = solve(case, layout, random_bars(rng, case), pushes)
    taken = np.zeros((3, len(case.points), 6))
    for s in range(layout.bar.size):
        for side, point, sign in ((0, layout.start[s], -1.0), (1, layout.end[s], 1.0)):
            local = sign * response.forces[0, :, s, side].reshape(3, 2, 3)
            taken[:, point] += (local @ layout.axes[s]).reshape(3, 6)
    given_ = pushes.forces.copy()
    index = [p.name for p in case.points]
    for n, support in enumerate(case.supports):
        given_[:, index.index(support.at)] += response.reactions[0, :, n]
    close(taken, given_, rel=1e-7)


@given(seeds)
@several
def test_designs_in_a_batch_are_solved_alone(seed):
    """Three designs at once give what each gives alone, loads per design included."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case, designs=3), random_pushes(rng, case)
    layout = lay_out(case)
    batch = solve(case, layout, bars, pushes)
    wide = np.stack([pushes.forces * k for k in (1.0, 2.0, -0.5)])
    scaled = solve(case, layout, bars, attrs.evolve(pushes, forces=wide))
    for d, factor in enumerate((1.0, 2.0, -0.5)):
        own = attrs.evolve(
            bars,
            **{
                name: getattr(bars, name)[d : d + 1]
                for name in ("area", "iy", "iz", "torsion", "shear_y", "shear_z", "youngs", "shear")
            },
        )
        alone = solve(case, layout, own, pushes)
        close(batch.forces[d], alone.forces[0])
        close(batch.displacements[d], alone.displacements[0])
        close(scaled.forces[d], factor * alone.forces[0])


@given(seeds)
@several
def test_dense_equals_sparse(seed):
    """Both paths agree to 1e-9."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    bars, pushes = random_bars(rng, case, designs=2), random_pushes(rng, case)
    dense = answer(case, bars, pushes)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(solving, "LARGE", 0)
        sparse = answer(case, bars, pushes)
    for field in ("displacements", "forces", "reactions"):
        close(getattr(sparse, field), getattr(dense, field), rel=1e-9)


def test_places_between_the_ends_follow_statics():
    """Between two stations the moment changes by shear x distance; at a via point `later` tells the side."""
    rng = np.random.default_rng(5)
    case = random_case(rng, ends=False, exact=False)
    whole = case.members[2]
    places = {p.name: np.array(p.at) for p in case.points}
    middle = 0.3 * places[whole.start] + 0.7 * places[whole.end]
    case = attrs.evolve(
        case,
        points=(*case.points, attrs.evolve(case.points[0], name="via", at=tuple(middle))),
        members=tuple(attrs.evolve(m, via=("via",)) if m is whole else m for m in case.members),
    )
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case, designs=2), random_pushes(rng, case, loads=2)
    response = solve(case, layout, bars, pushes)
    length = layout.bar_length[2]
    share = np.array([[0.0, 0.2, 0.7, 0.7, 0.9, 1.0], [0.1, 0.6, 0.7, 0.7, 0.71, 0.8]])
    found = at_places(layout, response, np.full(6, 2), share * length, np.array([0, 0, 0, 1, 0, 0]))
    s = layout.first[2]
    for d in range(2):
        start = response.forces[d, :, s, 0]
        for k in (0, 1, 2):
            x = share[d, k] * length
            assert found[d, :, k, 4] == pytest.approx(start[:, 4] + start[:, 2] * x, rel=1e-8)
            assert found[d, :, k, 5] == pytest.approx(start[:, 5] - start[:, 1] * x, rel=1e-8)
        assert found[d, :, 3] == pytest.approx(response.forces[d, :, s + 1, 0], rel=1e-9)
        assert found[d, :, 2] == pytest.approx(response.forces[d, :, s, 1], rel=1e-9)
        assert not np.allclose(found[d, :, 2], found[d, :, 3])
