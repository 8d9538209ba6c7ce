"""Keys that parts leave out, taken from [defaults] or from the program's own, and listed."""

import math
from collections.abc import Iterable, Mapping
from typing import Any

from strength import units
from strength.case.faults import Faults
from strength.case.model import Assumed
from strength.case.places import other_side
from strength.case.shape import Bar, Box, Flat, Rigid, Shape, Tube
from strength.case.trade.axes import wall
from strength.case.trade.entry import Entry
from strength.case.trade.material_of import MaterialOf
from strength.values import evolve

PROCESS = "mig"  # own choice: what most sheds have
QUALITY = "ordinary"
LEG_STEP = 0.5  # mm
_KINDS: dict[type, str] = {Tube: "tube", Box: "box", Flat: "flat", Bar: "bar"}


class Defaults:
    """What [defaults] says, and what was taken from it so far."""

    def __init__(self, table: Mapping[str, Any], faults: Faults) -> None:
        self._table = table
        self._faults = faults
        self._taken: dict[tuple[str, str, str], str] = {}  # (kind, name, key) -> the value
        self.origin: dict[tuple[str, str, str], str] = {}  # (kind, name, key) -> path of the default

    @property
    def assumed(self) -> tuple[Assumed, ...]:
        """Every value taken, each side's image left out where its original took the same."""
        return tuple(
            Assumed(part=name, key=key, value=value)
            for (kind, name, key), value in self._taken.items()
            if not (name.endswith(".right") and self._taken.get((kind, other_side(name), key)) == value)
        )

    def material(self, shape: Shape) -> str | None:
        """The metal for a kind of section, if there is one."""
        found = self._material(shape)
        return found[0] if found else None

    def _material(self, shape: Shape | None) -> tuple[str, str] | None:
        """The metal for a kind of section, and its path."""
        given = self._table.get("material")
        if isinstance(given, str):
            return given, "defaults.material"
        kind = _KINDS.get(type(shape), "")
        if given and kind in given:
            return given[kind], f"defaults.material.{kind}"
        return None

    def note(self, entry: Entry, key: str, value: str, origin: str = "") -> None:
        """List a value taken."""
        spot = (entry.kind, entry.name, key)
        self._taken[spot] = value
        if origin:
            self.origin[spot] = origin

    def metal_key(self, entry: Entry, key: str, shape: Shape, path: str) -> str | None:
        """A metal left out, of a part or of a plate in it."""
        found = self._material(shape)
        if found is None:
            kind = _KINDS.get(type(shape))
            where = f'here, or under [defaults] as material = {{{kind} = "..."}}' if kind else "here"
            self._faults.add(path, f"`material` is missing: which metal is it made of? Name it {where}")
            return None
        self.note(entry, key, *found)
        return found[0]

    def word(self, entry: Entry, key: str, own: str = "", missing: str = "") -> dict[str, str]:
        """A word left out: the default's, or the program's own; neither: a fault."""
        if key in entry.keys:
            return {}
        value = self._table.get(key, own)
        if not value and self._faults.under(f"defaults.{key}"):
            return {}
        if not value:
            self._faults.add(entry.path, f"`{key}` is missing: {missing}")
            return {}
        self.note(entry, key, value, f"defaults.{key}" if key in self._table else "")
        return {key: value}

    def leg(self, entry: Entry, walls: Iterable[float | None]) -> dict[str, float]:
        """A weld's leg left out: the default's, or the thinnest wall joined, rounded up to 0.5 mm."""
        if "leg" in entry.keys:
            return {}
        if "leg" in self._table:
            leg = self._table["leg"]
        else:
            known = [each for each in walls if each is not None]
            if not known:
                self._faults.add(entry.path, "`leg` is missing: no wall it joins is known to take it from")
                return {}
            leg = math.ceil(min(known) / LEG_STEP - 1e-9) * LEG_STEP
        self.note(entry, "leg", units.show(leg, "length"))
        return {"leg": leg}


_FILLER = (
    "which wire or rod is it welded with, such as 'ER70S-6'? Name it here, or under [defaults] for all; "
    "there is no usual one to fall back on"
)
_CLASS = "which strength class has it, such as '8.8'? Name it here, or under [defaults] for all"
_PLATE = Flat(1.0, 1.0)  # a plate's metal is a flat's


def with_defaults(entries: Iterable[Entry], defaults: Defaults) -> list[Entry]:
    """Entries, every left-out key that has a default filled in; metals that follow a member's are named."""
    entries = [
        entry.with_keys(**_metal(entry, defaults)) if entry.kind in ("member", "strut") else entry
        for entry in entries
    ]
    members = {entry.name: entry.keys for entry in entries if entry.kind == "member"}
    return [_filled(entry, defaults, members) for entry in entries]


Members = Mapping[str, Mapping[str, Any]]


def _filled(entry: Entry, defaults: Defaults, members: Members) -> Entry:
    keys: dict[str, Any] = {}
    match entry.kind:
        case "weld":
            keys = _weld(entry, defaults, members)
        case "bolt":
            plates = entry.keys.get("plates", ())
            keys = {
                **defaults.word(entry, "class", missing=_CLASS),
                "plates": tuple(
                    _plate(entry, defaults, plate, f"plates[{i}]", members) for i, plate in enumerate(plates)
                ),
            }
        case "stud":
            keys = dict(defaults.word(entry, "class", missing=_CLASS))
            if isinstance(entry.keys.get("into"), MaterialOf):
                keys["into"] = members.get(entry.keys["into"], {}).get("material", "")
        case "clamp":
            keys = dict(defaults.word(entry, "class", missing=_CLASS))
        case "sleeve" if "bolt" in entry.keys:
            bolt = evolve(entry, keys=entry.keys["bolt"], path=f"{entry.path}.bolt")
            keys = {"bolt": {**bolt.keys, **defaults.word(bolt, "class", missing=_CLASS)}}
    return entry.with_keys(**keys)


def _metal(entry: Entry, defaults: Defaults) -> dict[str, str]:
    shape = entry.keys.get("section")
    if "material" in entry.keys or shape is None or isinstance(shape, Rigid):
        return {}
    found = defaults.metal_key(entry, "material", shape, entry.path)
    return {} if found is None else {"material": found}


def _weld(entry: Entry, defaults: Defaults, members: Members) -> dict[str, Any]:
    keys: dict[str, Any] = {
        **defaults.word(entry, "process", PROCESS),
        **defaults.word(entry, "quality", QUALITY),
        **defaults.word(entry, "filler", missing=_FILLER),
    }
    onto = entry.keys.get("onto")
    walls: list[float | None] = []
    named = [name for name in (entry.keys.get("member"), onto) if isinstance(name, str)]
    for name in named:
        shape = members.get(name, {}).get("section")
        walls.append(None if shape is None else wall(shape))
    if isinstance(onto, dict):
        walls.append(onto["thickness"])
        keys["onto"] = _plate(entry, defaults, onto, "onto", members)
    if not all(name in members for name in named):  # told where it is named
        return keys
    return {**keys, **defaults.leg(entry, walls)}


def _plate(
    entry: Entry, defaults: Defaults, plate: Mapping[str, Any], key: str, members: Members
) -> dict[str, Any]:
    given = plate.get("material")
    if isinstance(given, MaterialOf):  # none yet: the member's own fault is told
        given = members.get(given, {}).get("material", "")
    if given is None:
        given = defaults.metal_key(entry, f"{key}.material", _PLATE, f"{entry.path}.{key}")
    return {**plate, "material": given or ""}
