"""What the sleeve checks look at: forces at mid-overlap and both tubes."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Sleeve
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.frame.response import at_places
from strength.joints.end_force import end_force
from strength.joints.heat import HeatLength
from strength.joints.sleeve_tubes import SleeveTube, sleeve_tubes
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class SleeveEffect:
    """One sleeve; magnitudes at mid-overlap (designs, loads), without load factor [N, N*mm].

    pull along the tube, torque about it, shear and moment across it.
    """

    sleeve: Sleeve
    tubes: tuple[SleeveTube, SleeveTube]
    pull: Array
    torque: Array
    shear: Array
    moment: Array
    path_factor: float

    def verdict(
        self, context: Context, kind: str, unit: str, source: str, demand: Array, strengths: list[Array]
    ) -> Verdict:
        """A verdict at the weaker tube; strengths (designs,) per tube, over the greater divisor."""
        by = np.maximum(*(divisor(context, tube) for tube in self.tubes))[..., None]
        covered = np.stack([tube.covered for tube in self.tubes], axis=-1)[:, None]
        hot = [f"{tube.word}: welded strength" for tube in self.tubes if tube.hot[0]]
        return worst_place(
            context,
            part=self.sleeve.name,
            kind=kind,
            unit=unit,
            fails="bends",
            source=source,
            demand=demand[..., None],
            limit=np.stack(strengths, axis=-1)[:, None] / by,
            path_factor=self.path_factor,
            places=tuple(
                f"{tube.word}, {self.sleeve.overlap:g} mm at the `{self.sleeve.end}` end of "
                f"{self.sleeve.member}"
                for tube in self.tubes
            ),
            in_range=covered,
            note="; ".join(hot),
        )


def divisor(context: Context, tube: SleeveTube) -> Array:
    """Yield factor or gamma_M0 of a tube, (designs, loads)."""
    tough, careful = (context.factors.on_yield(tube.metal.kind, brittle=flag) for flag in (False, True))
    return np.where(tube.brittle[:, None], careful, tough)


_known: "WeakKeyDictionary[Context, tuple[SleeveEffect, ...]]" = WeakKeyDictionary()


def sleeve_effects(context: Context) -> tuple[SleeveEffect, ...]:
    """Every sleeve of the case, worked out once for its checks."""
    if context not in _known:
        heat = heat_of(context) if context.case.sleeves else ()
        _known[context] = tuple(_effect(context, sleeve, heat) for sleeve in context.case.sleeves)
    return _known[context]


def _effect(context: Context, sleeve: Sleeve, heat: tuple[HeatLength, ...]) -> SleeveEffect:
    layout, bar = context.layout, bar_number(context, sleeve.member)
    end = end_force(layout, context.response, bar, sleeve.end)
    middle = sleeve.overlap / 2.0 if end.into > 0.0 else end.length - sleeve.overlap / 2.0
    later = np.array([0 if end.into > 0.0 else 1], dtype=np.intp)
    inside = at_places(layout, context.response, np.array([bar], dtype=np.intp), np.array([[middle]]), later)[
        :, :, 0
    ]
    return SleeveEffect(
        sleeve=sleeve,
        tubes=sleeve_tubes(context.case, layout, context.bars, heat, sleeve, end),
        pull=np.abs(inside[..., 0]),
        torque=np.abs(inside[..., 3]),
        shear=np.hypot(inside[..., 1], inside[..., 2]),
        moment=np.hypot(inside[..., 4], inside[..., 5]),
        path_factor=joint_path_factor(context, bar, sleeve.only_path),
    )
