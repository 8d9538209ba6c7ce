"""Loads as computed: turns to both sides, strikes on both sides."""

from collections.abc import Iterable
from typing import Any

from strength.case.mirror import image
from strength.case.model import HandForce, Load, Strike
from strength.case.trade.entry import Entry
from strength.values import evolve


def spread_loads(entries: Iterable[Entry], *, mirror: bool) -> list[Entry]:
    """Entries with one load per turn and struck side; `cornering` is signed, left turns positive."""
    found = []
    for entry in entries:
        if entry.kind != "load":
            found.append(entry)
        elif entry.keys.get("cornering"):
            found += _turns(entry)
        elif mirror and entry.keys.get("strike", {}).get("wheel", "").endswith(".left"):
            other = image(entry)
            found.append(evolve(entry, name=f"{entry.name}, left wheel"))
            found.append(evolve(other, name=f"{entry.name}, right wheel"))
        else:
            found.append(entry)
    return found


def _turns(entry: Entry) -> list[Entry]:
    turn = entry.keys.get("turn", "both")
    signed = {"left": entry.keys["cornering"], "right": -entry.keys["cornering"]}
    if turn != "both":
        return [entry.with_keys(cornering=signed[turn])]
    return [
        evolve(entry.with_keys(cornering=value), name=f"{entry.name}, {side} turn")
        for side, value in signed.items()
    ]


def load(entry: Entry) -> Load:
    """The load of an entry that is free of faults."""
    keys: dict[str, Any] = dict(entry.keys)
    keys.pop("turn", None)
    strike, forces = keys.pop("strike", None), keys.pop("forces", ())
    return Load(
        name=entry.name,
        path=entry.path,
        strike=None if strike is None else Strike(**strike),
        forces=tuple(HandForce(**force) for force in forces),
        **keys,
    )
