"""Names of generated parts."""

from collections.abc import Collection

from strength.case.faults import nearest

SIDES = (".left", ".right")


def suffixed(name: str, suffix: str) -> str:
    """A generated name; the suffix stands before the side.

    >>> suffixed("lower.left", "-front")
    'lower-front.left'
    >>> suffixed("drawbar", "-root")
    'drawbar-root'
    """
    for side in SIDES:
        if name.endswith(side):
            return name.removesuffix(side) + suffix + side
    return name + suffix


def unknown_member(name: str, known: Collection[str], what: str = "member") -> str:
    """What to tell of a name that no member has; a wishbone's is answered with its legs.

    >>> unknown_member("lower.left", ["lower-front.left", "lower-rear.left", "post"])
    "'lower.left' is a wishbone: name one of its members, 'lower-front.left', 'lower-rear.left'"
    """
    own = [
        each for each in (suffixed(name, end) for end in ("-front", "-rear", "-spreader")) if each in known
    ]
    if len(own) > 1:
        return f"{name!r} is a wishbone: name one of its members, {', '.join(map(repr, own))}"
    return f"no {what} is named {name!r}{nearest(name, known)}"
