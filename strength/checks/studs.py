"""What every stud check looks at: forces on the stud, its thread, the metal it screws into."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import ArrayLike, NDArray

from strength.case.model import Stud
from strength.case.shape import Rigid
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.joints.end_force import EndForce, along_and_across, end_force, size
from strength.joints.heat import HeatLength
from strength.joints.tapped import ALONG, Tapped, tapped
from strength.library.bolt import BoltClass, find_bolt_class
from strength.library.threads import Thread, thread
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class StudEffect:
    """One stud; magnitudes (designs, loads) without load factor [N, N*mm].

    along, across: of the force. bending, twisting: of the end moment. axis: unit, body axes. in_line:
    it stands in line with its part, as a rod end does; False for one on a `rigid` step.
    """

    stud: Stud
    end: EndForce
    axis: Array
    in_line: bool
    grade: BoltClass
    thread: Thread
    into: Tapped
    along: Array
    across: Array
    bending: Array
    twisting: Array
    path_factor: float

    @property
    def kind(self) -> str:
        """Kind of the stud's metal that the factors go by."""
        return "stainless" if self.grade.stainless else "steel"

    def verdict(
        self,
        context: Context,
        kind: str,
        unit: str,
        fails: str,
        source: str,
        demand: ArrayLike,
        limit: ArrayLike,
        *,
        covered: ArrayLike = True,
        note: str = "",
    ) -> Verdict:
        """A verdict of (designs, loads) values."""
        return worst_place(
            context,
            part=self.stud.name,
            kind=kind,
            unit=unit,
            fails=fails,
            source=source,
            demand=np.asarray(demand)[..., None],
            limit=np.asarray(limit)[..., None],
            path_factor=self.path_factor,
            places=(f"{self.stud.size.text}, at the `{self.stud.end}` end of {self.stud.member}",),
            in_range=np.asarray(covered)[..., None],
            note=note,
        )

    def tapped_note(self) -> str:
        """What it screws into, and whether heat has been there."""
        note = f"in {self.into.metal.name}"
        if self.into.heat.inside[0].any():
            note += ", welded strength" + (" x 0.8 (TIG)" if self.into.heat.factor[0].min() < 1.0 else "")
        if not self.into.heat.covered[0].all():
            note += "; no rule gives the width of the heat-affected length"
        return note


_known: "WeakKeyDictionary[Context, tuple[StudEffect, ...]]" = WeakKeyDictionary()


def stud_effects(context: Context) -> tuple[StudEffect, ...]:
    """Every stud of the case, worked out once for all checks."""
    if context not in _known:
        heat = heat_of(context) if context.case.studs else ()
        _known[context] = tuple(_effect(context, stud, heat) for stud in context.case.studs)
    return _known[context]


def _effect(context: Context, stud: Stud, heat: tuple[HeatLength, ...]) -> StudEffect:
    bar = bar_number(context, stud.member)
    end = end_force(context.layout, context.response, bar, stud.end)
    axis = end.axes[0] if stud.axis is None else np.array(stud.axis)
    along, across = along_and_across(end.force, axis)
    twisting, bending = along_and_across(end.moment, axis)
    return StudEffect(
        stud=stud,
        end=end,
        axis=axis,
        in_line=not isinstance(context.bars.shapes[bar], Rigid) and abs(axis @ end.axes[0]) > ALONG,
        grade=find_bolt_class(stud.grade, stud.size.diameter),
        thread=thread(stud.size.text),
        into=tapped(context.case, context.layout, context.bars, heat, stud, end, axis),
        along=np.abs(along),
        across=size(across),
        bending=size(bending),
        twisting=np.abs(twisting),
        path_factor=joint_path_factor(context, bar, stud.only_path),
    )
