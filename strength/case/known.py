"""What one reading of a case found out, for the next of the same file with little changed."""

from collections.abc import Mapping
from typing import Any

from strength.case.faults import Faults
from strength.case.readers import Key, read_keys


class Known:
    """Keys that were read and joints that hold; nothing of a reading that told a fault is kept.

    A change to a file leaves the tables it does not touch as they are, so that a table met again is the
    very same object.
    """

    def __init__(self) -> None:
        self._keys: dict[str, tuple[object, dict[str, Any]]] = {}  # by path: as typed, as read
        self.linkage: object = None  # of a case in which nothing hangs loose

    def read(
        self, raw: object, table: Mapping[str, object], keys: tuple[Key, ...], path: str, faults: Faults
    ) -> dict[str, Any]:
        """The readable keys of a part; raw: all that is typed there, table: its keys."""
        before = self._keys.get(path)
        if before is not None and before[0] is raw:
            return before[1]
        found = read_keys(table, keys, path, faults)
        if not faults:
            self._keys[path] = (raw, found)
        return found
