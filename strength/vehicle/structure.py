"""Balanced loads to the forces at the structure's points."""

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.errors import CaseError
from strength.vehicle.carry import Carried, carried, shared
from strength.vehicle.flight import accelerations, body, gauge, inertia_of
from strength.vehicle.ground import places
from strength.vehicle.motion import specific_force
from strength.vehicle.sheet import Balanced, Pushes
from strength.vehicle.turning import add_wheels

Array = NDArray[np.float64]


def into_structure(case: Case, loads: tuple[Balanced, ...]) -> Pushes:
    """Wheels, hitches, masses and hand loads as forces and moments at the case's points.

    With supports: wheel forces, the weight and inertia of carried masses, hand loads. Without:
    the structure flies free, so every mass answers with -m (a + w x r) and the whole is in balance.

    Raises CaseError (a mass nothing carries, no mass at all) and BalanceError.
    """
    numbers = {p.name: n for n, p in enumerate(case.points)}
    at = places(case)
    forces = np.zeros((len(loads), len(case.points), 6))
    add_wheels(case, loads, numbers, forces)
    _add_hand_and_tows(case, loads, numbers, forces)
    parts = [carried(m, at, numbers) for m in case.masses if m.carried_by]
    where = np.array([p.at for p in case.points], dtype=float).reshape(-1, 3)
    if case.supports:
        given = [_weight(part, loads) for part in parts]
        held = None
    else:
        _check_free(case)
        whole = body(parts)
        a, w = accelerations(whole, where, forces, tuple(b.name for b in loads))
        given = [inertia_of(part, arm, a, w) for part, arm in zip(parts, whole.arms, strict=True)]
        held = gauge(parts, whole, len(case.points))
    warnings = []
    for part, load in zip(parts, given, strict=True):
        taken = shared(part, load)
        for k, point in enumerate(part.points):
            forces[:, point] += taken[:, k]
        warnings += _heavy_couples(case, part, load, taken, loads)
    return Pushes(
        forces=forces,
        gauge=held,
        notes=tuple(_out_of_balance(case, b) for b in loads),
        warnings=tuple(warnings),
    )


def _add_hand_and_tows(
    case: Case, loads: tuple[Balanced, ...], numbers: dict[str, int], forces: Array
) -> None:
    by_hand = {x.name: x.forces for x in case.loads}
    hitch = {t.name: t.at for t in case.tows}
    for n, load in enumerate(loads):
        for push in by_hand.get(load.name, ()):
            forces[n, numbers[push.at]] += (*push.force, *push.moment)
        for tow in load.tows:
            forces[n, numbers[hitch[tow.name]], :3] += tow.force


def _specific(load: Balanced) -> Array:
    return specific_force(load.driving - load.braking, load.cornering, load.vertical, load.lean)


def _weight(part: Carried, loads: tuple[Balanced, ...]) -> Array:
    """Force m f of a carried mass on a held structure: (loads, 6)."""
    out = np.zeros((len(loads), 6))
    for n, load in enumerate(loads):
        out[n, :3] = part.mass * _specific(load)
    return out


def _check_free(case: Case) -> None:
    why = (
        "`carried_by` is missing: without supports every mass must act on the structure; name the points "
        "that carry it"
    )
    faults = [(m.path or f"masses.{m.name}", why) for m in case.masses if not m.carried_by]
    if sum(m.mass for m in case.masses) <= 0.0:
        faults.append(
            ("masses", "no mass and no support: nothing balances the loads; add masses or supports")
        )
    if faults:
        raise CaseError(faults)


def _heavy_couples(
    case: Case, part: Carried, load: Array, taken: Array, loads: tuple[Balanced, ...]
) -> list[tuple[str, str]]:
    """A warning where a carrying point takes more than twice the mass's whole force."""
    whole = np.linalg.norm(load[:, :3], axis=1)
    each = np.linalg.norm(taken[..., :3], axis=2)
    floor = 1e-9 * float(each.max(initial=0.0))
    much = (each > 2.0 * whole[:, None] * (1.0 + 1e-9)) & (each > floor)
    if not much.any():
        return []
    n, k = np.unravel_index(np.argmax(np.where(much, each, 0.0)), each.shape)
    point = case.points[int(part.points[k])].name
    text = (
        f"in {loads[int(n)].name!r} {point} takes {each[n, k]:.0f} N of this mass's {whole[n]:.0f} N: its "
        f"points stand close together and far from it; carry it by points further apart, or nearer to it"
    )
    return [(part.name, text)]


def _out_of_balance(case: Case, load: Balanced) -> tuple[str, ...]:
    """With supports, what a struck load lacks to be in balance: wheels and hitch against all masses."""
    struck = any(x.name == load.name and x.strike is not None for x in case.loads)
    if not case.supports or not struck:
        return ()
    pushed = np.sum([w.force for w in load.wheels] + [t.force for t in load.tows], axis=0)
    rest = pushed + sum(m.mass for m in case.masses) / 1000.0 * _specific(load)
    x, y, z = (round(float(v)) + 0 for v in rest)
    return (f"struck: out of balance by {x} N forward, {y} N left, {z} N up, which the supports take",)
