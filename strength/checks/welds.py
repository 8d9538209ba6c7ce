"""What both fillet weld checks look at: every rule of every weld at its worst place."""

import math
from functools import cached_property
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.model import Weld
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.notes import amplified_note
from strength.checks.verdict import Late, Verdict
from strength.checks.weld_groups import Judged, judged_groups
from strength.joints.draw import THROAT, Number
from strength.joints.fillet import Rule
from strength.joints.peak import Peak
from strength.joints.seat import Seat
from strength.joints.words import sector, sides
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@frozen(kw_only=True, eq=False)
class Worst:
    """The worst of some rules, characteristic, at its worst place; (designs, loads).

    stress [MPa], without the load factor. rule: its number. parts: (..., 3) q_x, q_s, q_n there
    [N/mm]. place: number of a side (`words.sides`).
    """

    rules: tuple[Rule, ...]
    stress: Array
    rule: Index
    parts: Array
    place: Index


@frozen(kw_only=True, eq=False)
class WeldEffect:
    """One weld of a group and the worst of its rules at the throat and at the toe.

    number: of the weld in the group.
    """

    judged: Judged
    number: int
    path_factor: float

    @property
    def seat(self) -> Seat:
        """Where it sits."""
        return self.judged.seats[self.number]

    @property
    def weld(self) -> Weld:
        """The weld as the case has it."""
        return self.seat.weld

    @cached_property
    def throat(self) -> Worst:
        """The worst of the throat's rules."""
        return _worst(self.judged, self.number, self.judged.ruled[self.number].throat, self.judged.throats)

    @cached_property
    def toe(self) -> Worst:
        """The worst of the toe's rules."""
        return _worst(self.judged, self.number, self.judged.ruled[self.number].toe, self.judged.toes)

    @property
    def known(self) -> bool:
        """Whether the filler's table has the parents."""
        return self.judged.ruled[self.number].known

    @property
    def heat_known(self) -> NDArray[np.bool_]:
        """(designs,) True where a rule of heat covers both parts."""
        return spread(self.judged.ruled[self.number].heat_known, (self.judged.group.designs,))

    @property
    def square(self) -> NDArray[np.bool_]:
        """(designs or 1,) True where the faces meet at 60 to 120 degrees."""
        return self.judged.group.own(self.number, self.judged.square)

    @property
    def low(self) -> Array:
        """(designs or 1,) where the weld begins along its host [mm from the host's `from`]."""
        return self.judged.group.own(self.number, self.judged.span.host_low)

    @property
    def high(self) -> Array:
        """(designs or 1,) where it ends there."""
        return self.judged.group.own(self.number, self.judged.span.host_high)

    @cached_property
    def sides(self) -> tuple[str, ...]:
        """Names of the sides of the member at this weld."""
        return sides(self.seat.axes)

    def late(
        self, context: Context, kind: str, quality: float, in_range: NDArray[np.bool_], why: str
    ) -> Verdict:
        """Its utilisations, and the rest of the verdict when it is asked for."""
        throat = kind == "weld-throat"
        group, peak = self.judged.group, self.judged.throats if throat else self.judged.toes
        use = group.own(self.number, peak.use).reshape(group.designs, -1)
        use = use * (context.factors.load() * context.factors.on_ultimate() * (self.path_factor / quality))

        def whole() -> Verdict:
            return self.verdict(context, kind, self.throat if throat else self.toe, quality, in_range, why)

        within = None if in_range.all() else spread(in_range[:, None], use.shape)
        return Late(self.weld.name, kind, use, whole, in_range=within)

    def verdict(
        self, context: Context, kind: str, worst: Worst, quality: float, in_range: NDArray[np.bool_], why: str
    ) -> Verdict:
        """Demand and limit are those of the rule with the greatest utilisation."""
        factor = context.factors.load()
        demand = worst.stress * factor
        rules = worst.rules
        limits = np.stack([spread(rule.limit, demand.shape[:1]) for rule in rules], axis=-1)
        limit = limits[np.arange(demand.shape[0])[:, None], worst.rule]
        limit = limit * quality / context.factors.on_ultimate()
        use = demand / limit
        leg = float(self.seat.leg[0])
        name, over = ("throat", leg * THROAT) if kind == "weld-throat" else ("leg", leg)
        parts = worst.parts[0] * factor[:, None] / over
        parts = np.where(np.abs(parts) > 1e-6 * np.abs(parts).max(axis=-1, keepdims=True), parts, 0.0)
        notes = []
        for load, (rule, (x, s, n)) in enumerate(zip(worst.rule[0], parts.tolist(), strict=True)):
            text = (
                f"{rules[int(rule)].what}; over the {name}, MPa: {x:.4g} along {self.weld.member}, "
                f"{s:.4g} along the weld, {n:.4g} across"
            )
            if name == "throat":
                text += f" ({normal_and_transverse(x, n)})"
            every = (text, "" if in_range[0] else why, amplified_note(context, load))
            notes.append("; ".join(part for part in every if part))
        return Verdict(
            part=self.weld.name,
            kind=kind,
            unit="MPa",
            fails="parts",
            source=rules[int(worst.rule[0, np.argmax(use[0])])].source,
            demand=demand,
            limit=limit,
            utilisation=use * self.path_factor,
            places=self.sides,
            where=worst.place,
            in_range=spread(in_range[:, None], demand.shape),
            notes=tuple(notes),
        )


def normal_and_transverse(x: float, n: float) -> str:
    """The worse of both 45 degree throats in words, from the stress along the member and across.

    >>> normal_and_transverse(30.0, -10.0)
    'at 45 degrees 28.28 normal to the throat, 14.14 transverse in it'
    """
    normal = math.copysign((abs(x) + abs(n)) * THROAT, x if abs(x) >= abs(n) else n)
    transverse = abs(abs(x) - abs(n)) * THROAT
    return f"at 45 degrees {normal:.4g} normal to the throat, {transverse:.4g} transverse in it"


_known: "WeakKeyDictionary[Context, tuple[WeldEffect, ...]]" = WeakKeyDictionary()


def weld_effects(context: Context) -> tuple[WeldEffect, ...]:
    """Every weld of the case, worked out once for both checks.

    Raises CaseError for a line that cannot be drawn or cannot carry its moment.
    """
    if context not in _known:
        found = {
            n: WeldEffect(judged=judged, number=k, path_factor=path_factor(context, judged.seats[k].weld))
            for judged in judged_groups(context)
            for k, n in enumerate(judged.group.welds)
        }
        _known[context] = tuple(found[n] for n in range(len(found)))
    return _known[context]


def path_factor(context: Context, weld: Weld) -> float:
    """1.25 where the weld, or with no word of its own its member, is the only path; else 1."""
    only = weld.only_path
    if only is None:
        only = any(member.only_path for member in context.case.members if member.name == weld.member)
    return ONLY_PATH if only else 1.0


def _worst(judged: Judged, k: int, rules: tuple[Rule, ...], peak: Peak) -> Worst:
    group = judged.group

    def own(values: NDArray[Number]) -> NDArray[Number]:
        """Values of the weld (designs, loads, ...)."""
        found = group.own(k, values)
        return found.reshape(group.designs, -1, *found.shape[2:])

    return Worst(
        rules=rules,
        stress=own(peak.value),
        rule=np.minimum(own(peak.form), len(rules) - 1),
        parts=own(peak.parts),
        place=sector(own(peak.place), group.own(k, judged.line.centroid)[:, None]),
    )
