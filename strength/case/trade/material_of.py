"""A metal that is known only when the part it belongs to is final."""


class MaterialOf(str):
    """The metal of the member named so: a plate or tapped part follows its member's metal."""

    __slots__ = ()
