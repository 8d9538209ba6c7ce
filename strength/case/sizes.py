"""Bolt, pin and pivot texts, such as "M10", "pin 12 mm" or "rod end M10"."""

import re

from strength import units
from strength.case.faults import RefusedError
from strength.case.model import BoltSize
from strength.case.readers import worded
from strength.case.trade.parts import Pivot

_THREAD = re.compile(r"M([0-9]{1,2}(?:\.[0-9])?)(?:\s*x\s*[0-9](?:\.[0-9]{1,2})?)?")
_COUNTED = re.compile(r"([0-9]{1,2})\s*x\s*(\S.*)")
_SIZE = rf"(?:{_THREAD.pattern}|(?:shoulder|pin)\s+[0-9.].*)"


def bolt_size(text: str) -> BoltSize:
    """What holds: a metric thread, a shoulder screw or a pin; raises RefusedError or QuantityError.

    >>> bolt_size("pin 0.5 in")
    BoltSize(kind='pin', text='pin 0.5 in', diameter=12.7)
    """
    plain = " ".join(text.split())
    if match := _THREAD.fullmatch(plain):
        if float(match[1]) < 1.0:
            raise RefusedError(f"{text!r} is not a thread: write for instance 'M10'")
        return BoltSize(kind="thread", text=plain, diameter=float(match[1]))
    word, _, rest = plain.partition(" ")
    if word in ("shoulder", "pin") and rest:
        diameter = units.quantity(rest, "length")
        if diameter <= 0.0:
            raise RefusedError(f"{text!r} has a diameter that is not more than 0")
        return BoltSize(kind=word, text=plain, diameter=diameter)
    raise RefusedError(f"{text!r} is not a size: write 'M10', 'shoulder 10 mm' or 'pin 12 mm'")


def thread_size(text: str) -> BoltSize:
    """A metric thread only; raises RefusedError.

    >>> thread_size("M12").diameter
    12.0
    """
    plain = " ".join(text.split())
    if not _THREAD.fullmatch(plain):
        raise RefusedError(f"{text!r} is not a thread: write for instance 'M10'")
    return bolt_size(plain)


def _pivot(text: str) -> Pivot:
    plain = " ".join(text.split())
    if plain == "fixed":
        return Pivot(kind="fixed")
    for kind in ("rod end", "bush"):
        if plain.startswith(kind + " "):
            rest = plain.removeprefix(kind + " ")
            return Pivot(kind=kind, size=thread_size(rest) if kind == "rod end" else bolt_size(rest))
    raise RefusedError(f"{text!r} is not a pivot: write 'rod end M10', 'bush M10' or 'fixed'")


def _counted(text: str) -> tuple[int, BoltSize]:
    match = _COUNTED.fullmatch(text.strip())
    if match is None or int(match[1]) < 1:
        raise RefusedError(f"{text!r} is not a number of bolts: write for instance '2 x M8'")
    return int(match[1]), bolt_size(match[2])


def _root(text: str) -> str:
    plain = " ".join(text.split())
    if not plain.startswith("thread "):
        raise RefusedError(f"{text!r} is not a root: write for instance 'thread M12'")
    return thread_size(plain.removeprefix("thread ")).text


size = worded(bolt_size, "M10", rf"^\s*{_SIZE}\s*$")
thread = worded(thread_size, "M10", rf"^\s*{_THREAD.pattern}\s*$")
thread_root = worded(_root, "thread M12", rf"^\s*thread\s+{_THREAD.pattern}\s*$")
pivot = worded(_pivot, "rod end M10", rf"^\s*(?:fixed|(?:rod\s+end|bush)\s+{_SIZE})\s*$")
counted = worded(_counted, "2 x M8", rf"^\s*[0-9]{{1,2}}\s*x\s*{_SIZE}\s*$")
