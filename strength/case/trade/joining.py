"""Points that stand on a member join its `via`."""

from collections.abc import Iterable, Sequence

from strength.case.faults import Faults
from strength.case.trade.entry import Entry
from strength.case.trade.laying import on_image
from strength.case.trade.layout import Layout
from strength.case.trade.names import suffixed
from strength.case.trade.parts import Bracket, Part
from strength.case.trade.vector import distance, fraction_of

SAME = 0.01  # mm


def join_via(entries: Sequence[Entry], layout: Layout, parts: Iterable[Part], faults: Faults) -> list[Entry]:
    """Points typed `on` a member and roots of brackets join that member's `via`, in order along it."""
    joining: dict[str, list[str]] = {}
    for entry in entries:
        on = entry.keys.get("on")
        if entry.kind != "point" or not isinstance(on, str):
            continue
        if layout.is_image(on):
            faults.add(f"{entry.path}.on", on_image(on))
        joining.setdefault(on, []).append(entry.name)
    for part in parts:
        if isinstance(part, Bracket) and not faults.under(part.path):
            root = suffixed(part.name, "-root")
            with faults.at(part.path):
                name = layout.make(root, (part.path, f"bracket {part.name}"))
                joining.setdefault(part.on, []).append(name)
                layout.join(name, part.on)
    members = {entry.name: i for i, entry in enumerate(entries) if entry.kind == "member"}
    found = list(entries)
    for member, points in joining.items():
        place = members.get(member)
        if place is not None:
            with faults.at(found[place].path):
                found[place] = _joined(found[place], points, layout)
    return found


def _joined(member: Entry, points: Iterable[str], layout: Layout) -> Entry:
    """A member with more points in its `via`; those at its ends are there already."""
    keys = member.keys
    if "from" not in keys or "to" not in keys:
        return member
    start, end = layout.where(keys["from"]), layout.where(keys["to"])
    if distance(start, end) < SAME:
        return member
    via = list(keys.get("via", ()))
    for point in points:
        at = layout.where(point)
        there = {keys["from"], keys["to"], *via}
        if point in there or any(distance(at, layout.where(name)) < SAME for name in there):
            continue
        fraction = fraction_of(at, start, end)
        later = (i for i, name in enumerate(via) if fraction_of(layout.where(name), start, end) > fraction)
        via.insert(next(later, len(via)), point)
    return member.with_keys(via=tuple(via)) if via else member
