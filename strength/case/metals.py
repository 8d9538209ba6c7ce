"""The metals and fillers that a case names: its own, the user's, the library's."""

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from strength.case.faults import Faults, RefusedError
from strength.errors import LibraryError, UnknownNameError
from strength.library import Filler, Metal
from strength.library.fillers import find_filler
from strength.library.metals import find_metal
from strength.library.own import own_filler, own_metal

Found = TypeVar("Found")
Own = Mapping[str, Mapping[str, Mapping[str, Any]]]


class Stores:
    """Metals and fillers by name; what is asked for is kept under the name it was asked by."""

    def __init__(self, own: Own, faults: Faults) -> None:
        self._faults = faults
        self._own_metals: dict[str, Metal] = {}
        self._own_fillers: dict[str, Filler] = {}
        self._broken: set[str] = set()
        self.metals: dict[str, Metal] = {}
        self.fillers: dict[str, Filler] = {}
        for name, table in own.get("material", {}).items():
            metal, told = own_metal(name, table)
            self._keep(self._own_metals, "material", name, metal, told)
        for name, table in own.get("filler", {}).items():
            filler, told = own_filler(name, table)
            self._keep(self._own_fillers, "filler", name, filler, told)

    def metal(self, name: str) -> Metal:
        """The metal of a name; raises RefusedError with the nearest names."""
        if name not in self.metals:
            self.metals[name] = self._found(
                "material", name, lambda: find_metal(name, extra=self._own_metals)
            )
        return self.metals[name]

    def filler(self, name: str) -> Filler:
        """The filler of a name; raises RefusedError with the nearest names."""
        if name not in self.fillers:
            self.fillers[name] = self._found(
                "filler", name, lambda: find_filler(name, extra=self._own_fillers)
            )
        return self.fillers[name]

    def _keep(
        self, own: dict[str, Found], kind: str, name: str, found: Found | None, told: list[tuple[str, str]]
    ) -> None:
        for key, why in told:
            self._faults.add(f"{kind}.{name}.{key}" if key else f"{kind}.{name}", why)
        if found is None:
            self._broken.add(f"{kind} {name}")
        else:
            own[name] = found

    def _found(self, kind: str, name: str, find: Callable[[], Found]) -> Found:
        if f"{kind} {name}" in self._broken:  # told at its own table
            raise RefusedError
        try:
            return find()
        except UnknownNameError as error:
            raise RefusedError(str(error)) from None
        except LibraryError as error:
            raise RefusedError(f"the user's own library: {error}") from None
