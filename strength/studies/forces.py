"""Forces on the structure for many sets of masses at once.

While no wheel lifts and nothing tips, wheel forces are linear in the masses, but for the share that each
braked wheel takes; what the body's inertia answers follows from them in closed form. Loads for which that
does not hold are balanced draw by draw.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Support, Tow, Wheel
from strength.studies.prepared import Prepared
from strength.values import evolve, frozen
from strength.vehicle import Balanced, balance
from strength.vehicle.carry import Carried, carried, skew
from strength.vehicle.ground import places
from strength.vehicle.motion import specific_force
from strength.vehicle.structure import into_structure

Array = NDArray[np.float64]
Index = NDArray[np.intp]

STEP = 0.04  # relative, of each mass in turn: well inside what scatters
LINEAR = 1e-11  # of the greatest force: how well a step of all masses together must be foretold
NOTHING = 1e-9


@frozen(kw_only=True, eq=False)
class Loading:
    """How forces on the points follow from the masses.

    A contact is a wheel or the hitch. hand: (loads, points, 6) hand loads. unit: (loads, contacts, 3,
    points, 6) what a unit of force on a contact does to the points. contact: (loads, contacts, 3) its force;
    by_mass: (masses, loads, contacts, 3) its growth by a factor on each mass. sharing: (loads, contacts)
    contacts that share the whole X in proportion to their Z. curved: numbers of loads that are balanced draw
    by draw. weight: (loads, 3) force per tonne on a held structure.
    """

    case: Case
    carried: tuple[Carried, ...]
    numbers: Index  # of the carried masses
    where: Array  # (points, 3)
    hand: Array
    unit: Array
    contact: Array
    by_mass: Array
    sharing: NDArray[np.bool_]
    curved: Index
    weight: Array

    def forces(self, factors: Array) -> Array:
        """Forces (draws, loads, points, 6) for factors on the masses (draws, masses)."""
        contact = self.contacts(factors)
        out = np.empty((len(factors), *self.hand.shape))
        flat = out.reshape(*out.shape[:2], -1).transpose(1, 0, 2)
        unit = self.unit.reshape(len(self.unit), -1, flat.shape[2])
        np.matmul(contact.transpose(1, 0, 2, 3).reshape(*flat.shape[:2], -1), unit, out=flat)
        out += self.hand
        self._answer(out, factors)
        lifts = np.any((self.contact[..., 2] > 0.0) & (contact[..., 2] < 0.0), axis=2)
        lifts[:, self.curved] = True
        for draw in np.flatnonzero(lifts.any(axis=1)):
            loads = np.flatnonzero(lifts[draw])
            out[draw, loads] = self._exactly(factors[draw], loads)
        return out

    def contacts(self, factors: Array) -> Array:
        """Forces of the road on the contacts (draws, loads, contacts, 3) while none lifts."""
        found: Array = self.contact + np.tensordot(factors - 1.0, self.by_mass, axes=1)
        upright = np.where(self.sharing, found[..., 2], 0.0)
        whole = np.where(self.sharing, found[..., 0], 0.0).sum(axis=2, keepdims=True)
        total = upright.sum(axis=2, keepdims=True)
        shared = whole * upright / np.where(total > 0.0, total, 1.0)
        found[..., 0] = np.where(self.sharing, shared, found[..., 0])
        return found

    def _exactly(self, factors: Array, loads: Index) -> Array:
        case = scaled(self.case, factors)
        case = evolve(case, loads=tuple(case.loads[n] for n in loads))
        return into_structure(case, balance(case)).forces

    def _answer(self, road: Array, factors: Array) -> None:
        """Add the weight of carried masses on a held structure, or the inertia of a free one."""
        masses = factors[:, self.numbers] * np.array([part.mass for part in self.carried])
        if self.case.supports:
            for n, part in enumerate(self.carried):
                given = np.zeros((*road.shape[:2], 6))
                given[..., :3] = masses[:, n, None, None] * self.weight
                _share(road, part, given)
            return
        at = np.array([part.at for part in self.carried])
        total = masses.sum(axis=1)
        centre = masses @ at / total[:, None]
        arms = at - centre[:, None]  # (draws, parts, 3)
        own = factors[:, self.numbers] * np.array([part.inertia for part in self.carried])
        square = np.einsum("dja,djb->djab", arms, arms)
        size = np.trace(square, axis1=2, axis2=3)
        inertia = np.einsum("dj,djab->dab", masses, size[..., None, None] * np.eye(3) - square)
        inertia += own.sum(axis=1)[:, None, None] * np.eye(3)
        whole = road.reshape(*road.shape[:2], -1) @ self._whole
        push = whole[..., :3]
        turning = whole[..., 3:] - np.einsum("dab,dlb->dla", skew(centre), push)
        a = push / total[:, None, None]
        values, axes = np.linalg.eigh(inertia)
        along = np.einsum("dla,dab->dlb", turning, axes)
        empty = values <= NOTHING * values[:, -1:]
        spin = np.where(empty[:, None], 0.0, along / np.where(empty, 1.0, values)[:, None])
        w = np.einsum("dlb,dab->dla", spin, axes)
        for n, part in enumerate(self.carried):
            turned = np.einsum("dab,dlb->dla", skew(-arms[:, n]), w)  # w x r = -r x w
            force = -masses[:, n, None, None] * (a + turned)
            moment = -own[:, n, None, None] * w
            _share(road, part, np.concatenate([force, moment], axis=-1))

    @cached_property
    def _whole(self) -> Array:
        """Force and moment about the origin that forces on all points make: (points and 6, 6)."""
        found = np.zeros((len(self.where), 6, 6))
        found[:, :3, :3] = found[:, 3:, 3:] = np.eye(3)
        found[:, :3, 3:] = skew(self.where).swapaxes(1, 2)
        return found.reshape(-1, 6)


def _share(out: Array, part: Carried, given: Array) -> None:
    """What a mass gives (draws, loads, 6), on the points that carry it."""
    taken = np.einsum("kij,dlj->dlki", part.share, given)
    for k, point in enumerate(part.points):
        out[:, :, point] += taken[:, :, k]


def scaled(case: Case, factors: Array) -> Case:
    """The case with each mass times a factor (masses,)."""
    masses = tuple(
        evolve(mass, mass=mass.mass * float(f)) for mass, f in zip(case.masses, factors, strict=True)
    )
    return evolve(case, masses=masses)


def loading(ready: Prepared) -> Loading:
    """Work out how the forces of a case follow from its masses."""
    case = ready.case
    at, numbers = places(case), {point.name: n for n, point in enumerate(case.points)}
    count = len(case.masses)
    contact = _contacts(case, ready.loads)
    by_mass = np.zeros((count, *contact.shape))
    for n in range(count):
        stepped = np.ones(count)
        stepped[n] += STEP
        by_mass[n] = (_contacts(case, balance(scaled(case, stepped))) - contact) / STEP
    parts = [(n, carried(mass, at, numbers)) for n, mass in enumerate(case.masses) if mass.carried_by]
    hand, unit = _units(case, ready.loads)
    found = Loading(
        case=case,
        carried=tuple(part for _, part in parts),
        numbers=np.array([n for n, _ in parts], dtype=np.intp),
        where=np.array([point.at for point in case.points], dtype=float).reshape(-1, 3),
        hand=hand,
        unit=unit,
        contact=contact,
        by_mass=by_mass,
        sharing=_sharing(case, ready.loads, contact),
        curved=np.zeros(0, dtype=np.intp),
        weight=np.array([_specific(load) for load in ready.loads]).reshape(-1, 3),
    )
    # all masses moved at once, each by another step: what that gives must be foretold
    factors = 1.0 + STEP * np.cos(np.arange(count))
    off = np.abs(_contacts(case, balance(scaled(case, factors))) - found.contacts(factors[None])[0])
    scale = np.abs(contact).max(initial=1.0)
    return evolve(found, curved=np.flatnonzero(off.max(axis=(1, 2), initial=0.0) > LINEAR * scale))


def _touching(case: Case) -> tuple[Wheel | Tow, ...]:
    """What the road or a tractor pushes on: wheels, then hitches."""
    return (*case.wheels, *case.tows)


def _contacts(case: Case, loads: tuple[Balanced, ...]) -> Array:
    """Forces on wheels, then hitches, of every load (loads, contacts, 3) [N]; 0 where there is none."""
    number = {each.name: n for n, each in enumerate(_touching(case))}
    out = np.zeros((len(loads), len(number), 3))
    for n, load in enumerate(loads):
        for wheel in load.wheels:
            out[n, number[wheel.name]] = wheel.force
        for tow in load.tows:
            out[n, number[tow.name]] = tow.force
    return out


def _sharing(case: Case, loads: tuple[Balanced, ...], contact: Array) -> NDArray[np.bool_]:
    """Wheels that share X by their Z: those that take some, but for a struck one."""
    out = np.asarray(contact[..., 0] != 0.0)
    struck = {load.name: load.strike.wheel for load in case.loads if load.strike is not None}
    names = [each.name for each in _touching(case)]
    for n, load in enumerate(loads):
        if load.name in struck:
            out[n, names.index(struck[load.name])] = False
    return out


def _units(case: Case, loads: tuple[Balanced, ...]) -> tuple[Array, Array]:
    """What hand loads, and a unit of each force on each contact, put on the points."""
    held = case.supports or (Support(name="", at=case.points[0].name, hold=(True,) * 6),)
    bare = evolve(case, masses=(), supports=held)
    still = tuple(_pushed(load, "", 0) for load in loads)
    hand = into_structure(bare, still).forces
    unit = np.zeros((len(loads), len(case.wheels) + len(case.tows), 3, *hand.shape[1:]))
    for n, each in enumerate(_touching(case)):
        for axis in range(3):
            moved = tuple(_pushed(load, each.name, axis) for load in loads)
            unit[:, n, axis] = into_structure(bare, moved).forces - hand
    return hand, unit


def _pushed(load: Balanced, name: str, axis: int) -> Balanced:
    """The load with a unit of force on one contact along one axis, and on no other."""

    def force(own: str) -> tuple[float, float, float]:
        x, y, z = (float(own == name and n == axis) for n in range(3))
        return x, y, z

    return evolve(
        load,
        wheels=tuple(evolve(wheel, force=force(wheel.name)) for wheel in load.wheels),
        tows=tuple(evolve(tow, force=force(tow.name)) for tow in load.tows),
    )


def _specific(load: Balanced) -> Array:
    return specific_force(load.driving - load.braking, load.cornering, load.vertical, load.lean)
