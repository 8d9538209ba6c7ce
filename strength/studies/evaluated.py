"""What an evaluation gives: the worst utilisation of every part and kind of check, design by design."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.checks.register import TIED
from strength.values import evolve, field, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]
Name = tuple[str, str]  # part, kind


@frozen(kw_only=True, eq=False)
class Evaluated:
    """Utilisations of designs.

    names: part and kind of each row, in the order of the register of checks. utilisation: (designs,
    rows), the worst over the loads; -inf where a design has no such row. load: (designs, rows) number
    of that load. covered: (designs, rows) False where any load's row is out of its source's range.
    every: (designs, rows, loads), where they were asked for.
    failed: why a design could not be computed; its figures are nan.
    """

    names: tuple[Name, ...]
    loads: tuple[str, ...]
    utilisation: Array
    load: Index
    covered: Flags
    failed: dict[int, str] = field(factory=dict)
    every: Array | None = None

    @property
    def designs(self) -> int:
        """How many there are."""
        return int(self.utilisation.shape[0])

    @property
    def worst(self) -> Array:
        """The worst utilisation of each design (designs,); nan where it could not be computed."""
        found: Array = self.utilisation.max(axis=1, initial=-np.inf)
        found = np.where(np.isneginf(found), 0.0, found)
        found[list(self.failed)] = np.nan
        return found

    @property
    def in_range(self) -> Flags:
        """False where any row of a design is out of its source's range (designs,)."""
        return np.asarray(self.covered.all(axis=1))

    def row(self, design: int) -> int:
        """Number of the worst row of a design; of equals, but for round-off, the first."""
        return int(np.argmax(self.utilisation[design].round(TIED)))

    def governs(self, design: int) -> str:
        """Identity of the worst check of a design: part/kind/load; empty where nothing is checked."""
        if not self.names or design in self.failed:
            return ""
        return self.identity(design, self.row(design))

    def identity(self, design: int, row: int) -> str:
        """Identity of a row at its worst load."""
        part, kind = self.names[row]
        return f"{part}/{kind}/{self.loads[int(self.load[design, row])]}"

    def taken(self, designs: Index) -> "Evaluated":
        """Some of the designs, in the order given."""
        place = {int(design): n for n, design in enumerate(designs)}
        return evolve(
            self,
            utilisation=self.utilisation[designs],
            load=self.load[designs],
            covered=self.covered[designs],
            every=None if self.every is None else self.every[designs],
            failed={place[n]: why for n, why in self.failed.items() if n in place},
        )


def failure(why: str, loads: tuple[str, ...] = ()) -> Evaluated:
    """One design that could not be computed."""
    return Evaluated(
        names=(),
        loads=loads,
        utilisation=np.zeros((1, 0)),
        load=np.zeros((1, 0), dtype=np.intp),
        covered=np.ones((1, 0), dtype=bool),
        failed={0: why},
    )


def together(parts: Sequence[tuple[Index, Evaluated]], designs: int) -> Evaluated:
    """Evaluations of disjoint sets of designs as one; each with the numbers of its designs.

    Loads have the same names in all of them.
    """
    names: dict[Name, int] = {}
    for _, part in parts:
        _take_in(names, part.names)
    order = {name: n for n, name in enumerate(sorted(names, key=names.__getitem__))}
    loads = max((part.loads for _, part in parts), key=len, default=())
    utilisation = np.full((designs, len(order)), -np.inf)
    load = np.zeros((designs, len(order)), dtype=np.intp)
    covered = np.ones((designs, len(order)), dtype=bool)
    kept = parts and all(part.every is not None for _, part in parts if part.names)
    every = np.full((designs, len(order), len(loads)), -np.inf) if kept else None
    failed: dict[int, str] = {}
    for own, part in parts:
        rows = np.array([order[name] for name in part.names], dtype=np.intp)
        utilisation[np.ix_(own, rows)] = part.utilisation
        load[np.ix_(own, rows)] = part.load
        covered[np.ix_(own, rows)] = part.covered
        if every is not None and part.every is not None:
            every[np.ix_(own, rows)] = part.every
        failed |= {int(own[n]): why for n, why in part.failed.items()}
    utilisation[list(failed)] = np.nan
    return Evaluated(
        names=tuple(order),
        loads=loads,
        utilisation=utilisation,
        load=load,
        covered=covered,
        failed=failed,
        every=every,
    )


def _take_in(names: dict[Name, int], more: tuple[Name, ...]) -> None:
    """Names with their ranks; new ones rank just behind the one they follow."""
    if not names:
        names.update({name: n for n, name in enumerate(more)})
        return
    if all(name in names for name in more):
        return
    order = sorted(names, key=names.__getitem__)
    at = 0
    for name in more:
        if name in names:
            at = order.index(name) + 1
        else:
            order.insert(at, name)
            at += 1
    names.clear()
    names.update({name: n for n, name in enumerate(order)})
