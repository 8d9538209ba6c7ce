"""`dropout`: the flats of an axle that is kept from turning by the slot of its dropout."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from strength.case.model import NotChecked, Warned
from strength.checks.context import Context
from strength.checks.joint_rows import joint_path_factor, worst_place
from strength.checks.verdict import Verdict

if TYPE_CHECKING:
    from strength.case.dropout import Dropout

BEARING = 1.5  # of the yield: pins in bearing
LOOSE = 0.2  # mm between flats and slot (own choice)
SOURCE = (
    "bearing of a pin, 1.5 fy, EN 1993-1-8:2005 Table 3.10; pressure linear along both flats (own choice)"
)


def dropout(context: Context) -> Iterator[Verdict]:
    """Pressure 6 T/(t l^2) on the flats against 1.5 x the lesser yield of dropout and axle, in every load.

    The dropout has its welded yield where its member's end is heat-affected.
    """
    for own in context.case.dropouts:
        from strength.checks.dropout_metals import bearing_pair
        from strength.joints.dropout import flank_pressure, flat_length

        pair = bearing_pair(context, own)
        length = flat_length(own.diameter, own.flats)
        note = f"flats {length:.3g} mm long"
        if pair.softer is not None:
            note += f", the axle of softer {pair.softer.name}"
        else:
            note += f" in {pair.metal.name}" + (", welded yield" if bool(pair.hot.inside[0, 0]) else "")
            note += "" if own.axle_material else "; the axle is taken as no softer"
        pressure = flank_pressure(own.torque, own.thickness, length)
        demand = np.broadcast_to(pressure * context.factors.load(), (pair.yield_.size, len(context.loads)))
        limit = BEARING * pair.yield_[:, None] / context.factors.on_yield(pair.kind, brittle=pair.brittle)
        yield worst_place(
            context,
            part=own.name,
            kind="dropout",
            unit="MPa",
            fails="slips",
            source=SOURCE,
            demand=demand[..., None],
            limit=limit[..., None],
            path_factor=joint_path_factor(context, pair.bar, own.only_path),
            places=(f"at `{own.end}` of {own.member}",),
            in_range=pair.hot.covered[:, 0, None, None],
            note=note,
            amplified=False,
        )


def unchecked_dropouts(context: Context) -> Iterator[NotChecked]:
    """What of a dropout no check looks at."""
    for own in context.case.dropouts:
        why = (
            "the two prongs beside the slot, the axle's nut, and what keeps the wheel in if that comes loose"
        )
        yield NotChecked(part=own.name, kind="dropout", why=why)


def loose_flats(context: Context) -> Iterator[Warned]:
    """Slots wider than the flats by more than 0.2 mm."""
    for own in context.case.dropouts:
        play = own.slot - own.flats
        if play > LOOSE + 1e-9:
            text = (
                f"{play:.3g} mm between flats and slot: the axle rocks to and fro and bears on its corners, "
                "harder than the figure says; file the slot to fit (common practice, no source)"
            )
            yield Warned(part=own.name, text=text)


def little_torque(context: Context) -> Iterator[Warned]:
    """Torques that the case's own loads exceed on the wheel that stands there."""
    case = context.case
    ends: dict[str, list[Dropout]] = {}
    for own in case.dropouts:
        member = next(member for member in case.members if member.name == own.member)
        ends.setdefault(member.start if own.end == "from" else member.end, []).append(own)
    for number, wheel in enumerate(case.wheels):
        there = ends.get(wheel.centre, [])
        typed = sum(own.torque for own in there)
        greatest, name = 0.0, ""
        for load in context.loads:
            turned = (wheel.driven and load.driving > 0.0) or (
                wheel.braked and load.braking > 0.0 and wheel.caliper is None
            )
            torque = abs(load.wheels[number].force[0]) * wheel.radius if turned else 0.0
            if torque > greatest:
                greatest, name = torque, load.name
        for own in there:
            if greatest > typed * (1.0 + 1e-9):
                text = (
                    f"{name!r} puts {greatest / 1000.0:.3g} N*m on the axle of {wheel.name}, more than the "
                    f"{typed / 1000.0:.3g} N*m typed for its dropouts: raise `torque`"
                )
                yield Warned(part=own.name, text=text)
