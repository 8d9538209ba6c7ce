"""Places that loads, masses and tows name, and points that stand on a member from both sides."""

from collections.abc import Iterable
from typing import Any

from strength.case.faults import Faults
from strength.case.places import Places, other_side
from strength.case.trade.entry import Entry, Place
from strength.case.trade.names import suffixed
from strength.case.trade.vector import distance, fraction_of, off_line
from strength.values import evolve

ON_LINE = 0.5  # mm, a via point off its member's line by no more lies on it
# kind -> key that asks for places -> ending of the point that a vector there makes
SUFFIXES = {
    "tow": {"at": "-at"},
    "mass": {"carried_by": "-carried"},
    "load": {"forces": "-force"},
}


def settled_loads(entries: Iterable[Entry], places: Places, faults: Faults) -> list[Entry]:
    """Entries whose tows, masses and hand forces name points; those that vectors make stand first."""
    before = len(places.made)
    found = [_settled(entry, places, faults) if entry.kind in SUFFIXES else entry for entry in entries]
    return [*places.made[before:], *found]


def _settled(entry: Entry, places: Places, faults: Faults) -> Entry:
    keys: dict[str, Any] = dict(entry.keys)
    maker = entry.maker or f"{entry.kind} {entry.name}"

    def settle(place: Place, wanted: str, path: str) -> str | None:
        with faults.at(path):
            return places.settle(place, wanted, path=entry.path, maker=maker)
        return None

    for key, ending in SUFFIXES[entry.kind].items():
        if not keys.get(key):
            continue
        given = keys.pop(key)
        single = isinstance(given, str) or isinstance(given[0], float)
        found: list[Any] = []
        for i, each in enumerate((given,) if single else given):
            path = f"{entry.path}.{key}" if single else f"{entry.path}.{key}[{i}]"
            wanted = suffixed(entry.name, ending if single or len(given) == 1 else f"{ending}-{i + 1}")
            if isinstance(each, dict):  # a force put on by hand
                name = settle(each["at"], wanted, f"{path}.at")
                found.append(name and {**each, "at": name})
            else:
                found.append(settle(each, wanted, path))
        if None not in found:
            keys[key] = found[0] if single else tuple(found)
    if entry.kind == "mass" and isinstance(keys.get("at"), str):
        place = keys.pop("at")
        with faults.at(f"{entry.path}.at"):
            keys["at"] = places.where(place)
    return evolve(entry, keys=keys)


def join_images(entries: Iterable[Entry], faults: Faults) -> list[Entry]:
    """Members that stand in the middle plane carry what stands on them from both sides.

    The image of a point that joined the `via` of a member without a side joins it too, in order
    along it. Typed `via` points are left alone.
    """
    entries = list(entries)
    points = {entry.name: entry for entry in entries if entry.kind == "point" and "at" in entry.keys}
    found = []
    for entry in entries:
        via = entry.keys.get("via", ())
        if entry.kind == "member" and via and other_side(entry.name) == entry.name:
            with faults.at(entry.path):
                entry = entry.with_keys(via=_with_images(entry, via, points, faults))
        found.append(entry)
    return found


def _with_images(
    entry: Entry, via: tuple[str, ...], points: dict[str, Entry], faults: Faults
) -> tuple[str, ...]:
    ends = [points[entry.keys[key]].keys["at"] for key in ("from", "to") if entry.keys.get(key) in points]
    if len(ends) < 2 or distance(*ends) == 0.0:
        return via
    joined = dict.fromkeys(via)
    for name in via:
        twin = other_side(name)
        if twin in joined or twin not in points or name not in points:
            continue
        stands = points[name]
        if "on" not in stands.keys and not stands.maker.startswith("bracket"):
            continue
        at = points[twin].keys["at"]
        if off_line(at, *ends) <= ON_LINE and 0.0 <= fraction_of(at, *ends) <= 1.0:
            joined[twin] = None
        else:
            faults.add(
                stands.path,
                f"its image {twin!r} does not lie on {entry.name!r}, which has no image of its own: "
                f"name the member with '.left' as well, or leave '.left' out here",
            )
    if len(joined) == len(via) or any(name not in points for name in joined):
        return via
    return tuple(sorted(joined, key=lambda name: fraction_of(points[name].keys["at"], *ends)))
