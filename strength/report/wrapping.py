"""Breaking text into lines of a fixed width, wide letters counted as two."""

import unicodedata


def width(text: str) -> int:
    """Characters that a text takes on a console.

    >>> width("hub"), width("轮a"), width("é")
    (3, 3, 1)
    """
    if text.isascii():
        return len(text)
    return sum(map(_cells, text))


def _cells(letter: str) -> int:
    """Characters that one letter takes: none for combining marks, two for wide letters."""
    if unicodedata.combining(letter):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1


def padded(text: str, room: int, *, right: bool = False) -> str:
    """A text filled up with spaces; `right` sets it to the right."""
    spaces = " " * (room - width(text))
    return spaces + text if right else text + spaces


def wrap(text: str, room: int) -> list[str]:
    """Lines of at most `room` characters, broken at spaces; a word that is longer goes on in the next.

    >>> wrap("over the limit by 34 %", 10)
    ['over the', 'limit by', '34 %']
    >>> wrap("lower-front-cup", 7)
    ['lower-f', 'ront-cu', 'p']
    """
    if width(text) <= room:
        return [text]
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while width(line) > room:
            fits = _fitting(line, room)
            lines.append(line[:fits])
            line = line[fits:]
    return [*lines, line]


def _fitting(word: str, room: int) -> int:
    """How many letters of a word fit; at least one."""
    taken = 0
    for number, letter in enumerate(word):
        taken += _cells(letter)
        if taken > room:
            return max(number, 1)
    return len(word)
