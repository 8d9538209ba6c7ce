"""Where the library's figures come from."""

from strength.library import data
from strength.values import frozen

SURE = {
    "read": "read in the publication or in tables that reproduce it",
    "computed": "computed from the publication's formula",
    "memory": "from memory of the publication: check before you rely on it",
    "choice": "own choice or common practice, not a published value",
    "user": "the user's own",
}


@frozen(kw_only=True)
class Source:
    """A publication and what of it was seen."""

    key: str
    text: str
    seen: str


def find_source(key: str) -> Source:
    """The source of that key. Raises UnknownNameError."""
    name, table = data.read("source", key)
    return Source(key=name, text=table["text"], seen=table["seen"])


def source_keys() -> tuple[str, ...]:
    """All keys."""
    return data.names("source")


def cite(key: str) -> str:
    """The text to print for a source key; a text that is no key (the user's own) as it is."""
    return find_source(key).text if key in data.index("source") else key
