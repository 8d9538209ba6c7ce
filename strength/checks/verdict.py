"""What a check returns: demand against limit for its parts under all loads, as arrays."""

from collections.abc import Callable, Iterator
from functools import cached_property, partial
from itertools import compress, repeat
from operator import attrgetter
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]


class Row(NamedTuple):
    """One line of the record: one part, kind and load, at its worst place.

    A plain tuple with names, since a report makes thousands.
    """

    part: str
    kind: str
    load: str
    where: str
    demand: float
    limit: float
    unit: str
    utilisation: float
    in_range: bool
    fails: str
    source: str
    note: str

    @property
    def id(self) -> str:
        """Name of the row: part/kind/load."""
        return f"{self.part}/{self.kind}/{self.load}"

    @property
    def margin(self) -> float | None:
        """1/u - 1; None where nothing is asked of the part."""
        return 1.0 / self.utilisation - 1.0 if self.utilisation > 0.0 else None


_row = partial(tuple.__new__, Row)  # as `Row._make`, without a step in Python for each of thousands


@frozen(kw_only=True, eq=False)
class Verdict:
    """One kind of check on one part: all designs and loads, at the worst place of each.

    demand, limit, utilisation: (designs, loads). `limit` is already divided by its factor and
    `demand` already multiplied by the load factor; `utilisation` holds the 1.25 of an only path.
    where: (designs, loads) numbers into `places`. applies: (loads,) False: no row for that load.
    in_range: (designs, loads). notes: per load.
    """

    part: str
    kind: str
    unit: str  # "MPa", "N", "N*mm", "1"
    fails: str | tuple[str, ...]  # bends | parts | buckles | slips | cracks, for all loads or per load
    source: str
    demand: Array
    limit: Array
    utilisation: Array
    places: tuple[str, ...] = ("",)
    where: NDArray[np.intp] | None = None
    applies: NDArray[np.bool_] | None = None
    in_range: NDArray[np.bool_] | None = None
    notes: tuple[str, ...] | None = None

    def rows(self, loads: tuple[str, ...], design: int = 0) -> list[Row]:
        """The rows of one design, in the order of the loads."""
        every = len(loads)
        columns = (
            repeat(self.part, every),
            repeat(self.kind, every),
            loads,
            repeat(self.places[0], every)
            if self.where is None
            else [self.places[n] for n in self.where[design].tolist()],
            self.demand[design].tolist(),
            self.limit[design].tolist(),
            repeat(self.unit, every),
            self.utilisation[design].tolist(),
            repeat(True, every) if self.in_range is None else self.in_range[design].tolist(),
            repeat(self.fails, every) if isinstance(self.fails, str) else self.fails,
            repeat(self.source, every),
            repeat("", every) if self.notes is None else self.notes,
        )
        rows: Iterator[Row] = map(_row, zip(*columns, strict=True))
        return list(rows if self.applies is None else compress(rows, self.applies.tolist()))


class Late(Verdict):
    """A verdict of which only the utilisations are worked out: the rest is when it is asked for."""

    def __init__(
        self,
        part: str,
        kind: str,
        utilisation: Array,
        whole: Callable[[], Verdict],
        *,
        applies: NDArray[np.bool_] | None = None,
        in_range: NDArray[np.bool_] | None = None,
    ) -> None:
        vars(self).update(
            part=part, kind=kind, utilisation=utilisation, whole=whole, applies=applies, in_range=in_range
        )

    whole: Callable[[], Verdict]

    @cached_property
    def known(self) -> Verdict:
        """All of it."""
        return self.whole()

    def rows(self, loads: tuple[str, ...], design: int = 0) -> list[Row]:
        """The rows of one design, in the order of the loads."""
        return self.known.rows(loads, design)


for _name in ("unit", "fails", "source", "demand", "limit", "places", "where", "notes"):
    setattr(Late, _name, property(attrgetter(f"known.{_name}")))
