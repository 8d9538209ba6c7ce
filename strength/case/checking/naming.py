"""Points defined in one way, and parts that stand on one side without saying so."""

from collections.abc import Iterable, Iterator, Mapping

from strength.case.faults import Faults
from strength.case.kinds import KINDS
from strength.case.trade.entry import Entry

_WAYS = (
    ({"at"}, "at = '0 300 250 mm'"),
    ({"from", "by"}, "from = PLACE, by = '0 0 25 mm'"),
    ({"between", "at"}, "between = [PLACE, PLACE], at = 0.5"),
    ({"on", "at"}, "on = MEMBER, at = 0.5"),
)


def check_points(entries: Iterable[Entry], faults: Faults) -> None:
    """Tell points that are defined in no way or in two, and places that could not be named."""
    for entry in entries:
        if entry.kind in ("point", "wishbone", "bracket") and not entry.name[0].isalpha():
            why = "begin it with a letter, or it could not be told from a vector where it is named"
            faults.add(entry.path, f"{entry.name!r} is no name for a place: {why}")
        if entry.kind != "point" or faults.under(entry.path):
            continue
        keys = set(entry.keys)
        fits = [words for words, _ in _WAYS if words == keys]
        vector = isinstance(entry.keys.get("at"), tuple)
        if not fits or ("at" in keys and vector != (keys == {"at"})):
            ways = "; ".join(way for _, way in _WAYS)
            faults.add(entry.path, f"a point is given in one of these ways: {ways}")


def check_sides(typed: Iterable[Entry], settled: Iterable[Entry], faults: Faults) -> None:
    """Tell parts without `.left` that stand on the left only: their image would be missing.

    typed: points and trade parts are looked at as typed. settled: all others with names for their places.
    """
    for entry in (*_of(typed, _AS_TYPED), *settled):
        if entry.kind == "load" or entry.maker or entry.name.endswith(".left") or faults.under(entry.path):
            continue
        names = list(_names(entry))
        if names and all(name.endswith(".left") for name in names):
            faults.add(
                entry.path,
                f"all it names ends in '.left' ({', '.join(names[:3])}), so it would stand on the left only: "
                f"call it '{entry.name.removesuffix('.right')}.left', and it is mirrored as well",
            )


_AS_TYPED = ("point", "wishbone", "knuckle", "bracket")


def _of(entries: Iterable[Entry], kinds: Iterable[str]) -> list[Entry]:
    return [entry for entry in entries if entry.kind in kinds]


def _names(entry: Entry) -> Iterator[str]:
    """The parts and points an entry names; a point's vector is a place that is not on the left."""
    for key in KINDS[entry.kind].names:
        value = entry.keys.get(key)
        if value is None or isinstance(value, Mapping):
            continue
        several = isinstance(value, tuple) and bool(value) and not isinstance(value[0], float)
        for each in value if several else (value,):
            if isinstance(each, str):
                yield each
            elif entry.kind == "point":
                yield ""
