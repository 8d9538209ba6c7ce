"""Random sound frames: skew, unsymmetric, every kind of part and end."""

import attrs
import numpy as np

from strength.case.model import Case, Member, Strut
from tests.frame.building import ALL, PINNED, SOME, Size, bars_of, case_of, member, pushes_of, rigid


def random_size(rng, slender=False):
    """A size between thin tube and stout plate."""
    shear = (np.inf, np.inf) if slender else tuple(rng.uniform(60, 600, 2))
    return Size(
        youngs=rng.uniform(7e4, 2.1e5),
        shear=rng.uniform(2.6e4, 8.1e4),
        area=rng.uniform(80, 700),
        iy=10 ** rng.uniform(3.5, 5.5),
        iz=10 ** rng.uniform(3.5, 5.5),
        torsion=10 ** rng.uniform(3.5, 5.5),
        shear_y=shear[0],
        shear_z=shear[1],
    )


def random_case(rng, *, count=9, free=False, exact=True, struts=True, ends=True) -> Case:
    """A frame that cannot move: a tree of fixed members, closed by others of any kind.

    exact: rigid members and a strut that holds its length. ends: ball and hinge ends.
    """
    places = rng.uniform(-500, 500, (count, 3))
    names = [f"p{n}" for n in rng.permutation(count)]
    members: list[Member] = []
    for n in range(1, count):
        start = int(rng.integers(max(0, n - 3), n))
        up = tuple(rng.normal(size=3))
        if exact and n % 4 == 3:
            members.append(rigid(f"r{n}", names[start], names[n]))
        else:
            members.append(member(f"m{n}", names[start], names[n], up=up))
    pairs = [(a, b) for a in range(count) for b in range(a + 2, count)]
    rng.shuffle(pairs)
    kinds = ["fixed", "ball", "hinge"] if ends else ["fixed"]
    for k, (a, b) in enumerate(pairs[:5]):
        one, two = rng.choice(kinds, 2)
        axis = tuple(rng.normal(size=3)) if "hinge" in (one, two) else None
        members.append(
            member(
                f"x{k}",
                names[a],
                names[b],
                from_end=str(one),
                to_end=str(two),
                hinge_axis=axis,
                up=tuple(rng.normal(size=3)),
            )
        )
    links: list[Strut] = []
    if struts:
        (a, b), (c, d), (e, f) = pairs[5:8]
        links.append(Strut(name="s0", start=names[a], end=names[b], stiffness=float(rng.uniform(30, 3000))))
        links.append(Strut(name="s1", start=names[c], end=names[d], shape=SOME))
        if exact:
            links.append(Strut(name="s2", start=names[e], end=names[f]))
    order = rng.permutation(count)
    points = {names[n]: places[n] for n in order}
    supports = {} if free else {names[0]: ALL, names[4]: PINNED, names[6]: (0, 0, 1, 0, 1, 0)}
    return case_of(points, [members[n] for n in rng.permutation(len(members))], supports, links)


def random_bars(rng, case, designs=1, slender=False):
    """Sizes for every bar, several designs."""
    parts = [*case.members, *case.struts]
    return bars_of(case, *({part.name: random_size(rng, slender) for part in parts} for _ in range(designs)))


def random_pushes(rng, case, loads=3, gauge=None):
    """Forces and moments on every point."""
    return pushes_of(
        case,
        *(
            {
                point.name: np.concatenate([rng.normal(size=3) * 1e3, rng.normal(size=3) * 1e5])
                for point in case.points
            }
            for _ in range(loads)
        ),
        gauge=gauge,
    )


def turned(case: Case, turn: np.ndarray, shift: np.ndarray) -> Case:
    """The whole structure turned and moved; supports must hold everything or nothing."""

    def vector(value):
        return None if value is None else tuple(turn @ np.array(value))

    return attrs.evolve(
        case,
        points=tuple(attrs.evolve(p, at=tuple(turn @ np.array(p.at) + shift)) for p in case.points),
        members=tuple(
            attrs.evolve(m, up=vector(m.up or (0, 0, 1)), hinge_axis=vector(m.hinge_axis))
            for m in case.members
        ),
        struts=tuple(attrs.evolve(s, up=vector(s.up or (0, 0, 1))) for s in case.struts),
    )
