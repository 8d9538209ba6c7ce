"""Ends of members that say what they are welded onto."""

from collections.abc import Iterable

from strength.case.faults import Faults, RefusedError
from strength.case.trade.axes import face_distance
from strength.case.trade.entry import Entry
from strength.case.trade.layout import Layout
from strength.case.trade.names import suffixed
from strength.case.trade.placed import Host
from strength.case.trade.vector import distance, minus, unit
from strength.values import evolve

SAME = 0.01  # mm
WORK = ("leg", "filler", "process", "quality")
WELDING = ("weld_from", "weld_to", *WORK)  # keys of a member that speak of its welds


def weld_ends(entries: Iterable[Entry], layout: Layout, faults: Faults) -> list[Entry]:
    """`weld_from` and `weld_to` of members become welds `<name>-from` and `<name>-to`.

    A member's `leg`, `filler`, `process` and `quality` go to these welds; without one they are a fault.
    """
    entries = list(entries)
    told = {entry.name for entry in entries if entry.kind == "member"}  # what is wrong with their places
    found: list[Entry] = []
    welds: list[Entry] = []
    for entry in entries:
        if entry.kind != "member":
            found.append(entry)
            continue
        keys = {key: value for key, value in entry.keys.items() if key not in WELDING}
        found.append(evolve(entry, keys=keys))
        idle = (
            [] if {"weld_from", "weld_to"} & entry.keys.keys() else [key for key in WORK if key in entry.keys]
        )
        for key in idle:
            faults.add(f"{entry.path}.{key}", _idle(entry))
        for end in ("from", "to"):
            host = entry.keys.get(f"weld_{end}")
            if host is not None:
                with faults.at(f"{entry.path}.weld_{end}"):
                    try:
                        onto = layout.host(host)
                    except RefusedError as refused:
                        raise RefusedError("" if host in told else refused.why) from None
                    welds.append(_weld(entry, end, onto, layout))
    return [*found, *welds]


def _idle(entry: Entry) -> str:
    """What to do with a key of a weld on a member that makes none."""
    if entry.maker:
        return f"{entry.maker} makes {entry.name} and its welds: change the weld and not the member"
    return (
        "is of the weld that `weld_from` or `weld_to` makes, and both are left out: "
        "say what this member is welded onto, or put this on its weld"
    )


def _weld(entry: Entry, end: str, host: Host, layout: Layout) -> Entry:
    """One weld all round a member's end, its plane on the host's face."""
    start, finish = layout.where(entry.keys.get("from")), layout.where(entry.keys.get("to"))
    long = distance(start, finish)
    axes = host.axes
    if long < SAME or axes is None:
        raise RefusedError  # reported where these are read
    if host.name == entry.name:
        raise RefusedError("it is welded onto itself: name the part it is welded onto")
    inset = face_distance(host.shape, axes, unit(minus(finish, start)))
    if inset is None:
        raise RefusedError(
            f"{host.name} has no face in this direction to weld onto: write the weld out, with its `inset`"
        )
    if inset >= long:
        raise RefusedError(
            f"the face of {host.name} is {inset:.4g} mm from its centre line along this member, "
            f"which is only {long:.4g} mm long"
        )
    return Entry(
        kind="weld",
        name=suffixed(entry.name, f"-{end}"),
        keys={
            "member": entry.name,
            "end": end,
            "inset": inset,
            "pattern": "around",
            "onto": host.name,
            **{key: entry.keys[key] for key in WORK if key in entry.keys},
        },
        path=entry.path,
        maker=f"weld_{end} of member {entry.name}",
    )
