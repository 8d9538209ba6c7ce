"""Points defined in one way, and parts that stand on one side without saying so."""

from collections.abc import Iterable

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


def check_sides(entries: Iterable[Entry], faults: Faults) -> None:
    """Tell parts without `.left` that stand on the left only: their image would be missing."""
    for entry in entries:
        if entry.kind == "load" or entry.maker or entry.name.endswith(".left"):
            continue
        names = list(_names(entry))
        if names and all(name.endswith(".left") for name in names):
            faults.add(
                entry.path,
                f"all it names ends in '.left' ({', '.join(names[:3])}), so it would stand on the left only: "
                f"call it '{entry.name.removesuffix('.right')}.left', and it is mirrored as well",
            )


def _names(entry: Entry) -> Iterable[str]:
    """The parts and points an entry names."""
    for key in KINDS[entry.kind].names:
        value = entry.keys.get(key)
        for each in (value,) if isinstance(value, str) else value if isinstance(value, tuple) else ():
            if isinstance(each, str):
                yield each
