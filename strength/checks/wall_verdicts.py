"""Verdicts of joints on walls: utilisations at once, words where a row is shown."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.verdict import Late, Verdict
from strength.checks.wall_columns import Reason, WallColumns
from strength.checks.walls import WallJoint
from strength.joints.meeting import Neighbour

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]


def reasons_beside(
    joints: Sequence[WallJoint], designs: int, tell: Callable[[int, Neighbour], tuple[Bool, str] | None]
) -> Iterator[Reason]:
    """What neighbours of joints bring: of joint n and one near it a mask (designs or 1,) and why, or None."""
    for k in range(max(len(joint.near) for joint in joints)):
        mask = np.zeros((len(joints), 1, designs), dtype=bool)
        why = [""] * len(joints)
        for n, joint in enumerate(joints):
            told = tell(n, joint.near[k]) if k < len(joint.near) else None
            if told is not None:
                mask[n, 0], why[n] = told
        yield mask, why


def late_verdicts(
    context: Context,
    kind: str,
    columns: WallColumns,
    use: Array,
    source: str,
    modes: Callable[[int], Sequence[str]],
    reasons: Sequence[Reason],
) -> list[Verdict]:
    """Of each joint an interaction that already holds load factor and divisor, against 1.

    modes: of joint n, in words for each load.
    """
    every = (*columns.outside, *reasons)
    outside = np.zeros((1, 1, 1), dtype=bool)
    for mask, _ in sorted(every, key=lambda reason: reason[0].size):
        outside = outside | mask
    inside = ~spread(outside, use.shape)
    whole = [bool(own.all()) for own in inside]
    return [
        Late(
            joint.effect.weld.name,
            kind,
            use[n].T * joint.effect.path_factor,
            partial(_whole, context, kind, joint, use[n].T, inside[n].T, source, n, modes, every),
            in_range=None if whole[n] else inside[n].T,
        )
        for n, joint in enumerate(columns.joints)
    ]


def _whole(
    context: Context,
    kind: str,
    joint: WallJoint,
    use: Array,
    inside: Bool,
    source: str,
    number: int,
    modes: Callable[[int], Sequence[str]],
    reasons: Sequence[Reason],
) -> Verdict:
    loads = use.shape[1]
    told = []
    for mask, why in reasons:
        own = mask[number if len(mask) > 1 else 0, :, 0]
        if own.any():
            told.append((spread(own, (loads,)).tolist(), why if isinstance(why, str) else why[number]))
    notes = []
    for load, text in enumerate(modes(number)):
        parts = [text, *(why for mask, why in told if mask[load]), amplified_note(context, load)]
        notes.append("; ".join(part for part in parts if part))
    return Verdict(
        part=joint.effect.weld.name,
        kind=kind,
        unit="1",
        fails="bends" if kind != "chord-punching" else "parts",
        source=source,
        demand=use,
        limit=np.ones(use.shape),
        utilisation=use * joint.effect.path_factor,
        places=(f"wall of {joint.effect.weld.onto}, {joint.meeting.host.at[0]:.0f} mm along it",),
        in_range=inside,
        notes=tuple(notes),
    )
