"""One kind of part: what it is called and which keys it has."""

from typing import NamedTuple

from strength.case.readers import Key, Reader, choice, list_of, name

END = Key("end", choice("from", "to"), "which end of the member, from or to?")
ONLY_PATH = "only_path"


class Kind(NamedTuple):
    """A kind that may be written as `[[word]]` blocks or as lines of a `[plural]` table.

    short: the key that a line's value stands for where it is no table. names: the keys that name
    other parts. nameless: a block may go without a name.
    """

    word: str
    plural: str
    keys: tuple[Key, ...]
    short: str = ""
    names: tuple[str, ...] = ()
    nameless: bool = False

    def key(self, word: str) -> Key | None:
        """A key by its name."""
        return next((key for key in self.keys if key.name == word), None)


def of_member(what: str) -> Key:
    """The key `member` of a joint."""
    return Key("member", name, f"the name of {what}")


def several(item: Reader) -> Reader:
    """A list with at least one value, or one value on its own."""
    return list_of(item, least=1, or_one=True)
