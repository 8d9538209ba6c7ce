"""The register of checks: a new check is one file and one line here."""

from collections.abc import Callable, Iterator

import numpy as np

from strength.case.model import NotChecked
from strength.checks.bare import bare_sections
from strength.checks.bearing import bearing
from strength.checks.bolt_bending import bolt_bending
from strength.checks.bolt_shear import bolt_shear
from strength.checks.bolt_tension import bolt_combined, bolt_tension
from strength.checks.chord_wall import chord_punching, chord_wall
from strength.checks.clamps import clamp_slip
from strength.checks.context import Context
from strength.checks.dropouts import dropout, unchecked_dropouts
from strength.checks.frame_buckling import frame_buckling
from strength.checks.lug import lug
from strength.checks.lug_bending import lug_bending
from strength.checks.net_section import net_section
from strength.checks.plate_bending import plate_bending
from strength.checks.pull_through import pull_through
from strength.checks.rod_end import rod_end
from strength.checks.sleeve_bearing import sleeve_bearing, sleeve_wall
from strength.checks.sleeve_bolt import sleeve_bolt
from strength.checks.stability import stability
from strength.checks.stud_bending import stud_bending
from strength.checks.stud_rocking import stud_rocking
from strength.checks.tab_wall import tab_wall
from strength.checks.tear_out import tear_out
from strength.checks.thread_strip import thread_strip
from strength.checks.unchecked import left_out
from strength.checks.unchecked_bolts import unchecked_bolts
from strength.checks.unchecked_clamps import unchecked_clamps
from strength.checks.unchecked_sleeves import unchecked_sleeves
from strength.checks.unchecked_studs import unchecked_studs
from strength.checks.uses import Uses, joined
from strength.checks.verdict import Row, Verdict
from strength.checks.wall import wall
from strength.checks.walls_unchecked import walls_not_checked
from strength.checks.weld_throat import weld_throat
from strength.checks.weld_toe import weld_toe
from strength.checks.weld_uses import throat_uses, toe_uses
from strength.checks.yielding import rupture, yielding

TIED = 12  # decimals
Check = Callable[[Context], Iterator[Verdict]]

CHECKS: tuple[Check, ...] = (
    yielding,
    rupture,
    stability,
    wall,
    frame_buckling,
    weld_throat,
    weld_toe,
    chord_wall,
    chord_punching,
    tab_wall,
    plate_bending,
    lug_bending,
    bolt_shear,
    bolt_tension,
    bolt_combined,
    pull_through,
    bearing,
    tear_out,
    net_section,
    lug,
    bolt_bending,
    stud_bending,
    stud_rocking,
    thread_strip,
    rod_end,
    sleeve_bearing,
    sleeve_wall,
    sleeve_bolt,
    clamp_slip,
    dropout,
)
# What tells of things that were read but not checked.
TELLERS: tuple[Callable[[Context], Iterator[NotChecked]], ...] = (
    left_out,
    bare_sections,
    walls_not_checked,
    unchecked_bolts,
    unchecked_studs,
    unchecked_sleeves,
    unchecked_clamps,
    unchecked_dropouts,
)


# The same in fewer steps, where only utilisations are asked for.
QUICK: dict[Check, Callable[[Context], Uses]] = {weld_throat: throat_uses, weld_toe: toe_uses}


def every_verdict(context: Context) -> tuple[Verdict, ...]:
    """Verdicts of all checks in the order of the register."""
    return tuple(verdict for check in CHECKS for verdict in check(context))


def uses(context: Context) -> Iterator[Uses]:
    """Utilisations of all checks in the order of the register, one check after the other."""
    designs, loads = context.bars.wall.shape[0], len(context.load_names)
    for check in CHECKS:
        quick = QUICK.get(check)
        yield Uses.of(list(check(context)), designs, loads) if quick is None else quick(context)


def every_use(context: Context) -> Uses:
    """The same of all checks together."""
    return joined(list(uses(context)))


def worst_first(context: Context, verdicts: tuple[Verdict, ...], design: int = 0) -> tuple[Row, ...]:
    """Rows of one design, greatest utilisation first; ties in the order of the register.

    Images of parts under images of loads differ by round-off alone: these are ties too.
    """
    rows = [row for verdict in verdicts for row in verdict.rows(context.load_names, design)]
    use = np.array([row.utilisation for row in rows]).round(TIED)
    use[np.isnan(use)] = np.inf  # no number is worst of all
    return tuple(rows[n] for n in np.argsort(-use, kind="stable").tolist())


def not_checked(context: Context) -> tuple[NotChecked, ...]:
    """Everything read but not checked: from the case, then from the checks themselves, each once."""
    told = [*context.case.not_checked]
    told += [skipped for tell in TELLERS for skipped in tell(context)]
    return tuple(dict.fromkeys(told))
