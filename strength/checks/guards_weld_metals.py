"""Warnings about metals of welds: brazing, fillers not meant for a parent, strength kept beside a weld."""

from collections.abc import Iterator

from strength.case.model import Warned
from strength.checks.context import Context
from strength.checks.guards_weld_rules import joined
from strength.joints.fillet import BRAZED

KEPT = 0.9  # of the yield beside a weld: an aluminium that keeps more than this loses nothing there
SOFT = 150.0  # MPa: yield up to which aluminium may be in the soft temper (own choice)


def brazed(context: Context) -> Iterator[Warned]:
    """Brazed joints that go by the library's figure for the rod."""
    for weld in context.case.welds:
        filler = context.case.fillers[weld.filler]
        if (weld.process == "braze" or filler.kind == "bronze") and not filler.own:
            text = (
                f"brazed with {filler.name}: no code gives a value, {BRAZED:g} x {filler.strength:g} MPa "
                "stands in (own choice); break coupons of your own joint and give their figure as a "
                '[filler.NAME] of kind "bronze"'
            )
            yield Warned(part=weld.name, text=text)


def unsuited_filler(context: Context) -> Iterator[Warned]:
    """Fillers whose list of parents does not hold what they join."""
    for weld in context.case.welds:
        filler = context.case.fillers[weld.filler]
        wrong = {
            part.metal.name: None
            for part in joined(context, weld)
            if part.metal is not None and filler.is_meant_for(part.metal) is False
        }
        if wrong:
            text = (
                f"{filler.name} is not meant for {' and '.join(wrong)}: it may crack or stay weak there; "
                "take a filler that suits (`strength materials fillers` lists what each is for)"
            )
            yield Warned(part=weld.name, text=text)


def strength_kept(context: Context) -> Iterator[Warned]:
    """Hard aluminium of the user's own said to lose nothing beside a weld."""
    told: dict[str, list[str]] = {}
    for weld in context.case.welds:
        for part in joined(context, weld):
            metal = part.metal
            if metal is None or not metal.own or metal.kind != "aluminium":
                continue
            for row in metal.rows:
                if (
                    row.yield_ > SOFT
                    and row.yield_welded is not None
                    and row.yield_welded > KEPT * row.yield_
                ):
                    told.setdefault(metal.name, []).append(weld.name)
    for name, welds in told.items():
        for weld_name in dict.fromkeys(welds):
            text = (
                f"{name} is said to keep its hard temper beside the weld: 6061 and 6082 in T6 keep about "
                "half of their yield there, and no rest or home bake brings it back (EN 1999-1-1 Table 3.2b)"
            )
            yield Warned(part=weld_name, text=text)
