"""From what the user typed to plain entries: wishbones, knuckles, brackets, ends welded on, changes."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from strength.case.faults import Faults
from strength.case.model import Assumed
from strength.case.trade.bracket import make_bracket
from strength.case.trade.changes import Change, changed, read_change
from strength.case.trade.entry import Entry
from strength.case.trade.joining import join_via
from strength.case.trade.knuckle import make_knuckle
from strength.case.trade.laying import Laying
from strength.case.trade.layout import Layout
from strength.case.trade.making import Making
from strength.case.trade.names import suffixed
from strength.case.trade.parts import Bracket, Knuckle, Part, Wishbone
from strength.case.trade.reading import part_of
from strength.case.trade.settling import placed, settled
from strength.case.trade.welded_ends import WELDING, weld_ends
from strength.case.trade.wishbone import make_wishbone
from strength.values import evolve, frozen

SUFFIXES = {  # of the points and members that each makes
    "wishbone": ("-front", "-rear", "-ball", "-spreader", "-spreader-front", "-spreader-rear"),
    "knuckle": ("", "-low", "-high", "-root", "-low-step", "-high-step", "-axle", "-lower", "-upper"),
    "bracket": ("", "-root", "-foot", "-step"),
}
TRADE_KINDS = tuple(SUFFIXES)


@frozen(kw_only=True)
class Expansion:
    """Plain entries of one side, points first, and what goes with them.

    entries: their places are names of points, their points stand at vectors. layout: where other
    places are found. assumed: what trade parts took for keys left out. parts: the trade parts, for
    what is checked when both sides are there. later: changes for `.right`, after mirroring.
    """

    entries: tuple[Entry, ...]
    assumed: tuple[Assumed, ...]
    layout: Layout
    parts: tuple[Part, ...]
    later: tuple[Change, ...]


def expand(
    entries: Sequence[Entry],
    changes: Iterable[tuple[str, Mapping[str, Any]]],
    *,
    mirror: bool,
    faults: Faults,
) -> Expansion:
    """Turn trade parts into plain entries, settle places, weld ends on, apply changes; before mirroring.

    entries: typed parts of every kind. changes: (path, keys as typed). Faults go on the list; what could
    not be made is left out. A metal that follows a member's is a `MaterialOf`.
    """
    told = [change for path, raw in changes if (change := read_change(raw, path, faults)) is not None]
    typed = changed(entries, [change for change in told if _of_trade(change)], faults)
    parts = _parts(typed, faults)
    layout = Layout(typed, mirror=mirror)
    layout.broken.update(_unmade(typed, parts, faults))
    laying = Laying(layout, parts, faults)
    wheels = settled([entry for entry in typed if entry.kind == "wheel"], layout, faults)
    made, assumed, whole = _make_parts(parts, laying, faults)
    layout.broken.update(_unmade(typed, whole, faults))
    rest = settled([entry for entry in typed if entry.kind not in ("wheel", *TRADE_KINDS)], layout, faults)
    plain = join_via([*wheels, *made, *rest], layout, parts, faults)
    plain = [placed(entry, layout, faults) for entry in (*layout.made, *plain)]
    welding, sides = _of_welding(told, faults)
    plain = _once(weld_ends(changed(plain, welding, faults), layout, faults), faults)
    plain = changed(plain, [change for change in sides if not change.after_mirroring], faults)
    before = len(layout.made)
    plain = settled(plain, layout, faults, again=True)
    plain = [placed(entry, layout, faults) for entry in (*layout.made[before:], *plain)]
    return Expansion(
        entries=tuple(plain),
        assumed=tuple(assumed),
        layout=layout,
        parts=tuple(parts),
        later=tuple(change for change in sides if change.after_mirroring),
    )


def _of_trade(change: Change) -> bool:
    """Whether a change is of a trade part itself: done before it is laid out."""
    return change.kind in TRADE_KINDS


def _of_welding(told: Iterable[Change], faults: Faults) -> tuple[list[Change], list[Change]]:
    """What changes speak of welds at members' ends, done before these are made; and all the rest of them."""
    early: list[Change] = []
    rest: list[Change] = []
    for change in told:
        if _of_trade(change):
            continue
        welds = (
            {key: change.keys[key] for key in WELDING if key in change.keys}
            if change.kind == "member"
            else {}
        )
        if change.after_mirroring:
            for key in welds:
                faults.add(
                    f"{change.path}.{key}",
                    "welds at a member's ends are made on the left and mirrored: "
                    f"change the weld itself, such as 'weld {suffixed(change.name, '-from')}'",
                )
        elif welds:
            early.append(evolve(change, keys=welds))
        others = {key: value for key, value in change.keys.items() if key not in welds}
        if others or not welds:
            rest.append(evolve(change, keys=others))
    return early, rest


def _parts(entries: Iterable[Entry], faults: Faults) -> list[Part]:
    """The trade parts, each name once."""
    typed = _once((entry for entry in entries if entry.kind in TRADE_KINDS), faults)
    return [part for entry in typed if (part := part_of(entry, faults)) is not None]


def _unmade(entries: Iterable[Entry], parts: Iterable[Part], faults: Faults) -> Iterator[str]:
    """Names that trade parts at fault would have made, so that only these parts are told."""
    sound = {part.path for part in parts}
    for entry in entries:
        if entry.kind in TRADE_KINDS and (entry.path not in sound or faults.under(entry.path)):
            yield from (suffixed(entry.name, suffix) for suffix in SUFFIXES[entry.kind])


def _make_parts(
    parts: Sequence[Part], laying: Laying, faults: Faults
) -> tuple[list[Entry], list[Assumed], list[Part]]:
    """Wishbones, knuckles, then brackets, each in the order typed; and those that could be made."""
    entries: list[Entry] = []
    assumed: list[Assumed] = []
    whole: list[Part] = []
    for kind in (Wishbone, Knuckle, Bracket):
        for part in parts:
            if isinstance(part, kind):
                with faults.at(part.path):
                    making = _make(part, laying)
                    entries += making.entries
                    assumed += making.assumed
                    whole.append(part)
    return entries, assumed, whole


def _make(part: Part, laying: Laying) -> Making:
    """The entries of one part; raises RefusedError where it is at fault."""
    layout = laying.layout

    def settle(name: str) -> str:
        return layout.make(name, (part.path, f"{type(part).__name__.lower()} {part.name}"))

    match part:
        case Wishbone():
            return make_wishbone(part, laying.wishbone(part), settle)
        case Knuckle():
            placed, laid = laying.knuckle(part)
            centre = layout.wheels[part.wheel].keys.get("centre")
            centre = suffixed(part.wheel, "-hub") if isinstance(centre, tuple) else centre
            hub = layout.settle(centre, str(centre), path=part.path, maker=f"knuckle {part.name}")
            return make_knuckle(part, placed, laid, hub, settle)
        case Bracket():
            host, laid_bracket = laying.bracket(part)
            return make_bracket(part, host, laid_bracket, settle)


def _once(entries: Iterable[Entry], faults: Faults) -> list[Entry]:
    """The entries, one name once per kind; both makers of a second one are told."""
    first: dict[tuple[str, str], Entry] = {}
    found = []
    for entry in entries:
        other = first.setdefault((entry.kind, entry.name), entry) if entry.name else entry
        if other is entry:
            found.append(entry)
        else:
            why = f"the {entry.kind} {entry.name!r} is made twice: by {_maker(other)} and by {_maker(entry)}"
            faults.add(entry.path, f"{why}; rename one of them")
    return found


def _maker(entry: Entry) -> str:
    return entry.maker or f"{entry.path} as typed"


__all__ = ["Expansion", "expand"]
