"""Places of wheels, members, struts and supports become names of points."""

from collections.abc import Iterable

from strength.case.faults import Faults
from strength.case.trade.entry import Entry
from strength.case.trade.layout import Layout
from strength.case.trade.names import suffixed
from strength.values import evolve

# kind -> key -> ending of the point that a vector there makes
ENDINGS = {
    "wheel": {"centre": "-hub", "caliper": "-caliper"},
    "member": {"from": "-from", "to": "-to", "via": "-via"},
    "strut": {"from": "-from", "to": "-to"},
    "support": {"at": "-at"},
}


def settled(entries: Iterable[Entry], layout: Layout, faults: Faults, *, again: bool = False) -> list[Entry]:
    """Entries with names of points for their places, settled kind by kind in the order above.

    A place that cannot be found is left out; other kinds stay as they are. again: after changes, when
    the point that a place made before may still stand.
    """
    listed = list(entries)
    found = list(listed)
    for kind in ENDINGS:
        for i, entry in enumerate(listed):
            if entry.kind == kind:
                found[i] = _settled(entry, layout, faults, again=again)
    return found


def placed(entry: Entry, layout: Layout, faults: Faults) -> Entry:
    """A point with its place worked out, `on` kept; any other entry as it is."""
    if entry.kind != "point" or isinstance(entry.keys.get("at"), tuple):
        return entry
    keys = {key: value for key, value in entry.keys.items() if key == "on"}
    with faults.at(entry.path):
        keys["at"] = layout.define(entry)
    return evolve(entry, keys=keys)


def _settled(entry: Entry, layout: Layout, faults: Faults, *, again: bool) -> Entry:
    keys = dict(entry.keys)
    maker = entry.maker or f"{entry.kind} {entry.name}".strip()
    for key, ending in ENDINGS[entry.kind].items():
        if key not in keys:
            continue
        given = keys.pop(key)
        single = isinstance(given, str) or (bool(given) and isinstance(given[0], float))
        names = []
        for i, place in enumerate((given,) if single else given):
            wanted = suffixed(entry.name, ending if single or len(given) == 1 else f"{ending}-{i + 1}")
            wanted = layout.fresh(wanted) if again else wanted
            with faults.at(f"{entry.path}.{key}" + ("" if single else f"[{i}]")):
                names.append(layout.settle(place, wanted, path=entry.path, maker=maker))
        if len(names) == (1 if single else len(given)):
            keys[key] = names[0] if single else tuple(names)
    return evolve(entry, keys=keys)
