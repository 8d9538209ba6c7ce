"""Plain words for what is checked, how it fails and what helps. Own wording."""

from strength.checks.verdict import Row
from strength.report.display import margin, percent
from strength.report.standing import Standing, standing
from strength.values import frozen


@frozen(eq=False)
class Kind:
    """A kind of check: what it is called, and what helps when it governs ("": by what the part is)."""

    name: str
    helps: str


BIGGER = {
    "tube": "a larger tube first, then more wall",
    "box": "a larger tube first, then more wall",
    "bar": "a larger diameter, or a stronger metal",
    "plate": "more thickness, or more width along the bending",
}
SHORTER = ", or a shorter free length"
SLENDER = {
    "tube": "a larger tube rather than more wall" + SHORTER,
    "box": "a larger tube rather than more wall" + SHORTER,
    "bar": "a larger diameter or a tube" + SHORTER,
    "plate": "more thickness" + SHORTER,
    "strut": "a larger tube rather than more wall" + SHORTER,
}
BOLT = "a larger bolt, a higher class or one more bolt"
HOST = "more wall on the tube it is welded onto, or a wider part welded to it"
SCREW = "a larger thread, or less reach between ball and face"

KINDS: dict[str, Kind] = {
    "yielding": Kind("yielding", ""),
    "rupture": Kind("tearing through", ""),
    "stability": Kind("buckling", ""),
    "wall": Kind("wall denting", "more wall, or a smaller tube of the same wall"),
    "frame-buckling": Kind("frame buckling", "larger tubes or one more brace in the part that sways"),
    "weld-throat": Kind("weld throat", "a larger leg, a longer weld line or a larger tube"),
    "weld-toe": Kind("metal beside weld", "more wall, or a larger tube so that the weld line is longer"),
    "chord-wall": Kind("wall under weld", HOST),
    "chord-punching": Kind("punching through wall", HOST),
    "tab-wall": Kind("wall under tab", "more wall on the tube, or a longer tab along it"),
    "plate-bending": Kind("plate under weld bending", "a thicker plate, or a wider part welded to it"),
    "bolt-shear": Kind("bolt shear", BOLT + ", or two shear planes"),
    "bolt-tension": Kind("bolt tension", BOLT),
    "bolt-combined": Kind("bolt shear and tension", BOLT),
    "lug": Kind("eye of the lug", "more metal round the hole, or a thicker plate"),
    "bolt-bending": Kind("bolt bending", "a smaller gap, thinner cheeks or a larger bolt"),
    "pull-through": Kind("head pulling through", "a thicker plate or a larger washer"),
    "bearing": Kind("hole bearing", "a thicker plate or a larger bolt"),
    "tear-out": Kind("tearing out to the edge", "more edge distance or a thicker plate"),
    "net-section": Kind("tearing across the hole", "a wider or thicker plate"),
    "stud-bending": Kind("stud bending", SCREW),
    "stud-rocking": Kind(
        "stud rocking in its thread", "a thicker part for deeper engagement, or a larger thread"
    ),
    "thread-strip": Kind("thread stripping", "deeper engagement or a larger thread"),
    "rod-end": Kind("rod end rating", "a rod end of a higher rating"),
    "sleeve-bearing": Kind("sleeve bearing", "a longer overlap"),
    "sleeve-wall": Kind("sleeve wall", "a longer overlap or more wall"),
    "clamp-slip": Kind("clamp slipping", "one more clamp bolt, or larger ones"),
    "dropout": Kind("axle turning in its dropout", "a thicker dropout, or a torque arm as well"),
    "fatigue": Kind("fatigue cracking", "lower stress there: a larger part, or the weld moved away from it"),
}

STANDING_WORDS = {
    Standing.OVER: "over the limit",
    Standing.RANGE: "out of range",
    Standing.THIN: "thin margin",
    Standing.WITHIN: "within the limit",
}
# The sudden ways first: they give no warning.
FAILS: dict[str, str] = {
    "parts": "parts suddenly, without warning",
    "buckles": "buckles suddenly",
    "cracks": "cracks, then parts",
    "slips": "slips",
    "bends": "bends first",
}


def kind_name(kind: str) -> str:
    """What a builder calls the check."""
    known = KINDS.get(kind)
    return known.name if known else kind.replace("-", " ")


def governed(kind: str, noun: str) -> str:
    """The check, with what it is about where its name does not say so.

    >>> governed("yielding", "tube"), governed("weld-throat", "weld")
    ('tube: yielding', 'weld throat')
    """
    name = kind_name(kind)
    return name if noun == "weld" or noun in name else f"{noun}: {name}"


def helps(kind: str, noun: str) -> str:
    """What to make bigger when this check governs."""
    known = KINDS.get(kind)
    text = SLENDER.get(noun, "") if kind == "stability" else known.helps if known else ""
    return text or BIGGER.get(noun, "a larger or stronger part")


def fails(row: Row) -> str:
    """How it would fail."""
    return FAILS.get(row.fails, row.fails)


def suddenness(row: Row) -> int:
    """0 for what parts suddenly, rising to what bends first."""
    order = list(FAILS)
    return order.index(row.fails) if row.fails in order else len(order)


def verdict(row: Row) -> str:
    """How a row stands, in words that need no colour.

    "over the limit by 34 %", "thin margin 0.12", "out of range", "margin 0.80".
    """
    how = standing(row)
    if how is Standing.OVER:
        by = percent(row.utilisation - 1.0)
        return f"over the limit by {by}" if row.in_range else f"over by {by}, out of range"
    if how is Standing.RANGE:
        return f"out of range (margin {margin(row.margin)})"
    if how is Standing.THIN:
        return f"thin margin {margin(row.margin)}"
    return "nothing asked" if row.margin is None else f"margin {margin(row.margin)}"


def also(row: Row) -> str:
    """A further check of a part, beside the one that tells how it stands."""
    return f"also {kind_name(row.kind)}: {verdict(row)}"


def count(number: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 part", "3 parts"."""
    return f"{number} {one}" if number == 1 else f"{number} {many or one + 's'}"


def listed(names: list[str], most: int = 0) -> str:
    """Names in a row: "a, b and c"; beyond `most` only how many more."""
    if most and len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)
