"""Names of the other side."""

TURNED = (
    (", left turn", ", right turn", ", either turn"),
    (", left wheel", ", right wheel", ", either wheel"),
)


def mirrored(name: str) -> str:
    """The other side's name of a load or part; its own where it has no side.

    >>> mirrored("pothole, left wheel"), mirrored("hub.left"), mirrored("standing")
    ('pothole, right wheel', 'hub.right', 'standing')
    """
    for left, right, _ in (*TURNED, (".left", ".right", "")):
        if name.endswith(left):
            return name.removesuffix(left) + right
        if name.endswith(right):
            return name.removesuffix(right) + left
    return name


def left_hand(text: str) -> str:
    """A text about a part or load on the right as it would read of the left.

    >>> left_hand("302 N in 'pothole, right wheel' at hub.right")
    "302 N in 'pothole, left wheel' at hub.left"
    """
    for left, right, _ in (*TURNED, (".left", ".right", "")):
        text = text.replace(right, left)
    return text


def side_of(load: str) -> str:
    """Which of a mirrored pair of loads a load is.

    >>> side_of("bend, left turn"), side_of("standing")
    ('left turn', '')
    """
    ends = (end for left, right, _ in TURNED for end in (left, right))
    return next((end.removeprefix(", ") for end in ends if load.endswith(end)), "")


def either(load: str) -> str:
    """Name of a mirrored pair of loads."""
    for left, right, either in TURNED:
        for end in (left, right):
            if load.endswith(end):
                return load.removesuffix(end) + either
    return load
