"""Supports: one entry a held place, named where the user gave no name."""

from collections.abc import Iterable

from strength.case.trade.entry import Entry
from strength.case.trade.names import suffixed
from strength.values import evolve


def spread_supports(entries: Iterable[Entry]) -> list[Entry]:
    """Entries with one support per place.

    A line `bench = "all"` holds the place of its own name. A support without a name is named after
    its place; of several places under one name each takes a number.
    """
    found = []
    nameless = 0
    for entry in entries:
        if entry.kind != "support":
            found.append(entry)
            continue
        places = entry.keys.get("at", (entry.name,) if entry.name else ())
        for i, place in enumerate(places):
            name = entry.name
            if not name and isinstance(place, str):
                name = place
            elif not name:
                nameless += 1
                name = f"support-{nameless}"
            elif len(places) > 1:
                name = suffixed(name, f"-{i + 1}")
            found.append(evolve(entry, name=name, keys={**entry.keys, "at": place}))
    return found
