"""The register of warnings about joints: a new guard is one function and one line here."""

from collections.abc import Callable, Iterator

from strength.case.model import Warned
from strength.checks.context import Context
from strength.checks.dropouts import little_torque, loose_flats
from strength.checks.guards_bolts import (
    crowded_group,
    edges,
    single_shear,
    steel_in_aluminium,
    thread_in_shear,
    uneven_group,
)
from strength.checks.guards_loads import idle_load
from strength.checks.guards_sleeves import end_of_slot, loose_sleeve, short_sleeve, tight_sleeve
from strength.checks.guards_studs import bent_rod_end, shallow_thread, softer_beside
from strength.checks.guards_weld_metals import brazed, strength_kept, unsuited_filler
from strength.checks.guards_weld_rules import end_craters, least_leg, one_sided, outside_scope, short_weld
from strength.checks.guards_welds import large_leg, line_off_the_part, quenched_bolt, thin_wall_by_mig
from strength.checks.guards_wheels import brake_near_axle, thread_at_root

Guard = Callable[[Context], Iterator[Warned]]

GUARDS: tuple[Guard, ...] = (
    idle_load,
    bent_rod_end,
    shallow_thread,
    softer_beside,
    brake_near_axle,
    thread_at_root,
    quenched_bolt,
    edges,
    single_shear,
    thread_in_shear,
    crowded_group,
    uneven_group,
    large_leg,
    line_off_the_part,
    thin_wall_by_mig,
    strength_kept,
    unsuited_filler,
    brazed,
    one_sided,
    least_leg,
    short_weld,
    end_craters,
    outside_scope,
    tight_sleeve,
    loose_sleeve,
    short_sleeve,
    end_of_slot,
    steel_in_aluminium,
    loose_flats,
    little_torque,
)


def guarded(context: Context) -> tuple[Warned, ...]:
    """All warnings of the register, each once, in its order."""
    return tuple(dict.fromkeys(warning for guard in GUARDS for warning in guard(context)))
