"""What every stud check looks at: forces on the stud, its thread, the metal it screws into."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import ArrayLike, NDArray

from strength.case.model import Stud
from strength.case.shape import Rigid
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.joints.end_force import EndForce, end_forces, resolved
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
        _known[context] = _effects(context) if context.case.studs else ()
    return _known[context]


def _effects(context: Context) -> tuple[StudEffect, ...]:
    studs, heat = context.case.studs, heat_of(context)
    numbers = [(bar_number(context, stud.member), stud.end) for stud in studs]
    ends = end_forces(context.layout, context.response, numbers)
    axes = [
        end.axes[0] if stud.axis is None else np.array(stud.axis)
        for stud, end in zip(studs, ends, strict=True)
    ]
    along, across = resolved([end.force for end in ends], axes)
    twisting, bending = resolved([end.moment for end in ends], axes)
    shapes = context.bars.shapes
    return tuple(
        StudEffect(
            stud=stud,
            end=end,
            axis=axis,
            in_line=not isinstance(shapes[end.bar], Rigid) and abs(axis @ end.axes[0]) > ALONG,
            grade=find_bolt_class(stud.grade, stud.size.diameter),
            thread=thread(stud.size.text),
            into=tapped(context.case, context.layout, context.bars, heat, stud, end, axis),
            along=along[n].T,
            across=across[n].T,
            bending=bending[n].T,
            twisting=twisting[n].T,
            path_factor=joint_path_factor(context, end.bar, stud.only_path),
        )
        for n, (stud, end, axis) in enumerate(zip(studs, ends, axes, strict=True))
    )
