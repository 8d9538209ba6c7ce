"""Names of generated parts."""

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
