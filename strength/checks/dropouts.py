"""`dropout`: the flats of an axle that is kept from turning by the slot of its dropout."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import NotChecked, Warned
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.errors import CaseError, RangeError

if TYPE_CHECKING:
    from strength.case.dropout import Dropout
    from strength.library import Metal, Strength

Array = NDArray[np.float64]

BEARING = 1.5  # of the yield: pins in bearing
BRITTLE_BELOW = 0.10
LOOSE = 0.2  # mm between flats and slot (own choice)
SOURCE = (
    "bearing of a pin, 1.5 fy, EN 1993-1-8:2005 Table 3.10; pressure linear along both flats (own choice)"
)


def dropout(context: Context) -> Iterator[Verdict]:
    """Pressure 6 T/(t l^2) on the flats against 1.5 x the lesser yield of dropout and axle, in every load.

    The dropout has its welded yield where its member's end is heat-affected.
    """
    for own in context.case.dropouts:
        from strength.joints.dropout import flank_pressure, flat_length

        bar = bar_number(context, own.member)
        metal = context.bars.metals[bar] if not own.material else context.case.metals[own.material]
        if metal is None:
            why = f"{own.name}: nothing says what the dropout is made of: write `material`"
            raise CaseError([(own.path or own.name, why)])
        length = flat_length(own.diameter, own.flats)
        row = _row(own, metal, own.thickness)
        limits, covered, hot = _yield_there(context, own, metal, row, bar)
        kind, brittle, note = metal.kind, _is_brittle(row), f"flats {length:.3g} mm long in {metal.name}"
        if hot:
            note += ", welded yield"
        if own.axle_material:
            axle = context.case.metals[own.axle_material]
            of_axle = _row(own, axle, own.diameter)
            if of_axle.yield_ < float(limits.max()):
                limits, kind = np.minimum(limits, of_axle.yield_), axle.kind
                brittle = brittle or _is_brittle(of_axle)
                note = f"flats {length:.3g} mm long, the axle of softer {axle.name}"
        else:
            note += "; the axle is taken as no softer"
        pressure = flank_pressure(own.torque, own.thickness, length)
        demand = np.broadcast_to(pressure * context.factors.load(), (limits.size, len(context.loads)))
        limit = BEARING * limits[:, None] / context.factors.on_yield(kind, brittle=brittle)
        yield worst_place(
            context,
            part=own.name,
            kind="dropout",
            unit="MPa",
            fails="slips",
            source=SOURCE,
            demand=demand[..., None],
            limit=limit[..., None],
            path_factor=joint_path_factor(context, bar, own.only_path),
            places=(f"at `{own.end}` of {own.member}",),
            in_range=covered[:, None, None],
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


def _row(own: "Dropout", metal: "Metal", thickness: float) -> "Strength":
    try:
        return metal.strength(thickness)
    except RangeError as error:
        raise CaseError([(own.path or own.name, f"{own.name}: {error}")]) from error


def _is_brittle(row: "Strength") -> bool:
    return row.elongation is None or row.elongation < BRITTLE_BELOW


def _yield_there(
    context: Context, own: "Dropout", metal: "Metal", row: "Strength", bar: int
) -> tuple[Array, NDArray[np.bool_], bool]:
    """Yield (designs,) at the member's end, whether a rule of heat covers it, and whether it is heated."""
    from strength.joints.heated import heated

    designs = context.bars.wall.shape[0]
    at = np.array([0.0 if own.end == "from" else float(context.layout.bar_length[bar])])
    hot = heated(context.case, heat_of(context), metal, bar, at, at, designs)
    welded = row.yield_ if row.yield_welded is None else row.yield_welded
    found = hot.take(np.full((designs, 1), row.yield_), np.full((designs, 1), welded))
    return found[:, 0], hot.covered[:, 0], bool(hot.inside[0, 0])
