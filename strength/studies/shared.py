"""Something large that many pieces of a study share, sent to other processes with each of them."""

import os
import pickle
from functools import cached_property
from typing import Any, Generic, TypeVar

Value = TypeVar("Value")

_known: dict[str, "Shared[Any]"] = {}  # the latest alone, by its name


class Shared(Generic[Value]):
    """A value that is packed once, and unpacked once in each process that works on it.

    So what a process has worked out about it (its cached properties) serves all pieces that it gets; a
    process that was forked has it from the start.
    """

    def __init__(self, value: Value, name: str = "") -> None:
        self.value = value
        self.name = name or os.urandom(12).hex()
        _known.clear()
        _known[self.name] = self

    @cached_property
    def _packed(self) -> bytes:
        return pickle.dumps(self.value, pickle.HIGHEST_PROTOCOL)

    def __reduce__(self) -> tuple[Any, ...]:
        return _unpacked, (self.name, self._packed)


def _unpacked(name: str, packed: bytes) -> Shared[Any]:
    found = _known.get(name)
    return Shared(pickle.loads(packed), name) if found is None else found  # noqa: S301 - packed above
