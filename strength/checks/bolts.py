"""What every bolt check looks at: forces on each bolt, what it is made of, the plates it goes through."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import ArrayLike, NDArray

from strength.case.model import Bolt
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.errors import CaseError, UnknownNameError
from strength.joints.bolt_bending import couple
from strength.joints.bolt_group import BoltForces, grouped, singles
from strength.joints.bolted_plate import BoltedPlate, bolted_plates
from strength.joints.end_force import EndForce, end_forces
from strength.joints.fastener import Fastener, fastener
from strength.joints.heat import HeatLength
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class BoltEffect:
    """One bolt joint; forces (designs, loads, bolts) without load factor.

    shear: per plane, the couple of a moment across it counted in [N]. thickness: of carried plate and
    of each cheek (designs, 1, 1) [mm], None without plates. places: of the bolts, in words.
    """

    bolt: Bolt
    end: EndForce
    fastener: Fastener
    forces: BoltForces
    plates: tuple[BoltedPlate, ...]
    thickness: tuple[Array, Array] | None
    shear: Array
    path_factor: float
    places: tuple[str, ...]

    @property
    def is_single(self) -> bool:
        """True for one bolt, False for a group."""
        return not self.bolt.group

    @property
    def two_planes(self) -> bool:
        """True where it is sheared in two planes."""
        return self.bolt.shear_planes == 2

    def pull_on(self, plate: int) -> Array:
        """Force that a plate's holes take (designs, loads, bolts) [N]: all of it, or a cheek's share."""
        return self.forces.across if plate == 0 else self.shear

    def at_bolts(
        self,
        context: Context,
        kind: str,
        unit: str,
        demand: ArrayLike,
        limit: ArrayLike,
        source: str,
        *,
        note: str = "",
        fails: str = "parts",
    ) -> Verdict:
        """A verdict at the worst bolt, out of range where the bolt's class is."""
        return worst_place(
            context,
            part=self.bolt.name,
            kind=kind,
            unit=unit,
            fails=fails,
            source=source,
            demand=demand,
            limit=limit,
            path_factor=self.path_factor,
            places=self.places,
            in_range=not self.fastener.outside,
            note="; ".join(text for text in (self.fastener.outside, note) if text),
        )


_known: "WeakKeyDictionary[Context, tuple[BoltEffect, ...]]" = WeakKeyDictionary()


def bolt_effects(context: Context) -> tuple[BoltEffect, ...]:
    """Every bolt of the case, worked out once for all checks.

    Raises CaseError for a class or a plate's thickness that the library does not hold.
    """
    if context not in _known:
        bolts = context.case.bolts
        heat = heat_of(context) if any(bolt.plates for bolt in bolts) else ()
        numbers = [(bar_number(context, bolt.member), bolt.end) for bolt in bolts]
        ends = end_forces(context.layout, context.response, numbers)
        every = zip(bolts, ends, _forces(bolts, ends), strict=True)
        _known[context] = tuple(_effect(context, *each, heat) for each in every)
    return _known[context]


def _forces(bolts: tuple[Bolt, ...], ends: list[EndForce]) -> list[BoltForces]:
    """Forces on the bolts of every joint: all single ones in one step, then groups."""
    axes = [np.array(bolt.axis) for bolt in bolts]
    alone = [n for n, bolt in enumerate(bolts) if not bolt.group]
    own = [ends[n] for n in alone]
    found = singles([end.force for end in own], [end.moment for end in own], [axes[n] for n in alone])
    known = dict(zip(alone, found, strict=True))
    return [
        known[n] if n in known else grouped(end.force, end.moment, axes[n], np.array(bolts[n].group))
        for n, end in enumerate(ends)
    ]


def _effect(
    context: Context, bolt: Bolt, end: EndForce, forces: BoltForces, heat: tuple[HeatLength, ...]
) -> BoltEffect:
    places = np.array(bolt.group) if bolt.group else np.zeros((1, 3))
    plates = bolted_plates(context.case, context.layout, context.bars, heat, bolt, end, places)
    thickness = None
    if plates:
        carried = plates[0].thickness[:, :, None]
        thickness = (carried, plates[1].thickness[:, :, None] if len(plates) > 1 else carried / 2.0)
    return BoltEffect(
        bolt=bolt,
        end=end,
        fastener=_fastener(bolt),
        forces=forces,
        plates=plates,
        thickness=thickness,
        shear=_per_plane(bolt, forces, thickness),
        path_factor=joint_path_factor(context, end.bar, bolt.only_path),
        places=_words(bolt),
    )


def _per_plane(bolt: Bolt, forces: BoltForces, thickness: tuple[Array, Array] | None) -> Array:
    """Two planes: F_p/2 + |M_p|/(a + b + 2c); one: F_p."""
    if bolt.shear_planes == 1:
        return forces.across
    half = forces.across / 2.0
    return half if thickness is None else half + couple(forces.bending, *thickness, bolt.gap)


def _fastener(bolt: Bolt) -> Fastener:
    try:
        return fastener(bolt.size, bolt.grade, thread_in_shear=bolt.thread_in_shear)
    except UnknownNameError as error:
        raise CaseError([(bolt.path or bolt.name, f"{bolt.name}: {error}")]) from error


def _words(bolt: Bolt) -> tuple[str, ...]:
    if not bolt.group:
        return (f"{bolt.size.text}, at the `{bolt.end}` end of {bolt.member}",)
    count = len(bolt.group)
    return tuple(
        f"bolt {n} of {count}, "
        + " ".join(f"{round(x, 1) + 0.0:g}" for x in at)
        + f" mm from `{bolt.end}` of {bolt.member}"
        for n, at in enumerate(bolt.group, 1)
    )
