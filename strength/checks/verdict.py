"""What a check returns: demand against limit for its parts under all loads, as arrays."""

from collections.abc import Callable, Iterator
from functools import cached_property, partial
from itertools import compress, repeat
from operator import attrgetter
from typing import Any, NamedTuple

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


_new: Any = tuple.__new__
_row = partial(_new, Row)  # as `Row._make`, without a step in Python for each of thousands


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
        """The rows of one design, in the order of the loads; their words are late as well."""
        part, kind, words = self.part, self.kind, _Words(self, loads, design)
        covered = repeat(True, len(loads)) if self.in_range is None else self.in_range[design].tolist()
        rows: list[Row] = [
            _new(LateRow, (part, kind, load, words, None, None, None, use, within, None, None, None))
            for load, use, within in zip(loads, self.utilisation[design].tolist(), covered, strict=True)
        ]
        return rows if self.applies is None else list(compress(rows, self.applies.tolist()))


class _Words:
    """All rows of a late verdict for one design, worked out when the first of them is asked for."""

    def __init__(self, verdict: Late, loads: tuple[str, ...], design: int) -> None:
        self.verdict, self.loads, self.design = verdict, loads, design

    @cached_property
    def by_load(self) -> dict[str, Row]:
        return {row.load: row for row in self.verdict.known.rows(self.loads, self.design)}


class LateRow(Row):
    """A row of a late verdict: of most, a report shows no more than how they stand.

    In itself it has its part, kind and load, its utilisation and whether it is in range; the rest is that of
    the whole row. As a tuple it is the whole row.
    """

    @property
    def whole(self) -> Row:
        """The row with all it says."""
        words: Any = tuple.__getitem__(self, _WORDS)
        whole: Row = words.by_load[self.load]
        return whole

    def __iter__(self) -> Iterator[Any]:
        return iter(self.whole)

    def __getitem__(self, at: Any) -> Any:
        return self.whole[at]

    def __eq__(self, other: object) -> bool:
        return tuple(self) == (tuple(other) if isinstance(other, Row) else other)

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(self.whole)

    def __repr__(self) -> str:
        return repr(self.whole)

    def __reduce__(self) -> tuple[type[Row], tuple[Any, ...]]:
        return Row, tuple(self)


_WORDS = Row._fields.index("where")
for _name in ("unit", "fails", "source", "demand", "limit", "places", "where", "notes"):
    setattr(Late, _name, property(attrgetter(f"known.{_name}")))
_of_whole = {
    _name: property(attrgetter(f"whole.{_name}"))
    for _name in ("where", "demand", "limit", "unit", "fails", "source", "note")
}
for _name, _what in {**_of_whole, "_make": Row._make}.items():  # a changed copy is a whole row
    setattr(LateRow, _name, _what)
