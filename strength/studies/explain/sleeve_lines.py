"""Forces at mid-overlap of a sleeve by hand, and its tubes."""

import numpy as np

from strength.checks.sleeves import SleeveEffect, divisor, sleeve_effects
from strength.frame.response import at_places
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import (
    Subject,
    along_words,
    keyed,
    metal_origin,
    write_forces,
    yield_divisor,
)


def sleeve_of(subject: Subject) -> SleeveEffect:
    """The sleeve of a row."""
    return next(one for one in sleeve_effects(subject.context) if one.sleeve.name == subject.row.part)


def write_middle(sheet: Sheet, subject: Subject, effect: SleeveEffect, used: str) -> None:
    """Internal forces of the inner tube at mid-overlap."""
    context, sleeve = subject.context, effect.sleeve
    bar = context.bars.names.index(sleeve.member)
    length = float(context.layout.bar_length[bar])
    starts = sleeve.end == "from"
    place = sleeve.overlap / 2.0 if starts else length - sleeve.overlap / 2.0
    forces = at_places(
        context.layout,
        context.response,
        np.array([bar], dtype=np.intp),
        np.array([[place]]),
        np.array([0 if starts else 1], dtype=np.intp),
    )[0, subject.load, 0]
    write_forces(sheet, subject, forces, used, f"{along_words(subject, bar, place)}: mid-overlap")


def write_overlap(sheet: Sheet, effect: SleeveEffect) -> None:
    """Overlap."""
    sleeve = effect.sleeve
    sheet.given("s", sleeve.overlap, "length", "overlap", keyed(sleeve.path, sleeve.name, "overlap"))


def write_inner(sheet: Sheet, effect: SleeveEffect) -> None:
    """Outside diameter of the inner tube."""
    origin = f"case: section of {effect.sleeve.member}"
    sheet.given("d", effect.tubes[0].outside[0], "length", "outside diameter of the inner tube", origin)


def write_tubes(sheet: Sheet, subject: Subject, effect: SleeveEffect) -> None:
    """Yield strengths f_1, f_2 and the greater divisor n."""
    for mark, tube in zip("12", effect.tubes, strict=True):
        word = f"yield strength of the {tube.word}" + (", beside a weld" if tube.hot[0] else "")
        origin = metal_origin(tube.metal, float(tube.wall[0]), welded=bool(tube.hot[0]))
        sheet.given(f"f_{mark}", tube.yield_[0], "stress", word, origin)
    worse = max(effect.tubes, key=lambda tube: float(divisor(subject.context, tube)[0, subject.load]))
    brittle = "elongation under 10 % or not known" if bool(worse.brittle[0]) else ""
    yield_divisor(sheet, subject, worse.metal.kind, brittle=brittle)
