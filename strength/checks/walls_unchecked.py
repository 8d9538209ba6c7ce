"""Welds whose host has a wall or a plate that no check looks at."""

from collections.abc import Iterator

from strength.case.model import NotChecked
from strength.case.shape import Bar, Bare, Flat, Outline, Rigid
from strength.checks.context import Context
from strength.joints.meeting import lies_along


def walls_not_checked(context: Context) -> Iterator[NotChecked]:
    """Plates given by thickness only, outlines, bare sections, and members that lie along their host."""
    for seat in context.seats:
        weld, host = seat.weld, seat.host
        if seat.plate is not None:
            why = "the plate's size and how it is held are not known: as a flat member it would be checked"
            yield NotChecked(part=weld.name, kind="plate-bending", why=why)
        if host is None or isinstance(host.shape, Bar | Rigid):
            continue
        kind = "plate-bending" if isinstance(host.shape, Flat) else "tab-wall"
        if isinstance(host.shape, Outline | Bare):
            why = f"no rule for the wall of {weld.onto}, whose section is an outline or bare figures"
            yield NotChecked(part=weld.name, kind=kind, why=why)
        elif lies_along(seat):
            why = f"{weld.member} lies along {weld.onto}: no rule for its wall there"
            yield NotChecked(part=weld.name, kind=kind, why=why)
        elif isinstance(seat.shape, Outline | Bare | Rigid):
            why = f"no rule for {weld.onto} under a member whose section is an outline or bare figures"
            yield NotChecked(part=weld.name, kind=kind, why=why)
