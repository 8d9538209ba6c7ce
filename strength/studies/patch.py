"""A case file with values changed: comments, order and everything else as the user typed it."""

import tomllib
from collections.abc import Sequence
from typing import Any

from strength.errors import StrengthError
from strength.studies.typed import BLOCK, Edit, TypedCase


def patched(file: TypedCase, edits: Sequence[Edit]) -> str:
    """The text of the file with the edits made.

    Raises StrengthError where the text would not say what the edits mean.
    """
    import tomlkit

    document: Any = tomlkit.parse(file.text.replace("\r\n", "\n"))
    for edit in edits:
        if edit.way == BLOCK:
            _put_in(document, edit.value)
            continue
        place = document
        for step in edit.way[:-1]:
            place = place[step]
        place[edit.way[-1]] = _inline(edit.value) if isinstance(edit.value, dict) else edit.value
    text: str = tomlkit.dumps(document)
    if tomllib.loads(text) != file.changed(edits):
        raise StrengthError("the change cannot be written into this file: type it by hand")
    return text


def _inline(keys: dict[str, Any]) -> Any:
    """The keys on one line, spaced as people do."""
    import tomlkit

    line = tomlkit.inline_table()
    line.update(keys)
    return line


def _put_in(document: Any, keys: dict[str, Any]) -> None:
    """One more change block at the end of those there are, written as they are."""
    import tomlkit

    if isinstance(document.get("change"), tomlkit.items.Array):
        document["change"].append(_inline(keys))
        return
    block = tomlkit.table()
    block.update(keys)
    if "change" not in document:
        document.append("change", tomlkit.aot())
    document["change"].append(block)
