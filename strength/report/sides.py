"""Both sides of a mirrored vehicle told as one, where they do not differ."""

from collections.abc import Iterable, Sequence
from operator import attrgetter

from strength.case.model import Case
from strength.checks.verdict import Row
from strength.report.document import plain
from strength.report.mirrored import either, mirrored, side_of
from strength.report.parts import Nouns, across
from strength.report.standing import LEAST_THIN, Standing, is_over, is_thin, standing
from strength.values import frozen

NOUGHT = 1e-3  # utilisations below this read as nothing asked
ALIKE = 0.005  # utilisations closer than this share of the greater one read the same
Key = tuple[str, str]  # part, noun
NONE: dict[str, Row] = {}
USE, IN_RANGE = attrgetter("utilisation"), attrgetter("in_range")


@frozen(eq=False)
class LoadColumn:
    """One column: a load, or a pair of mirrored loads that ask the same."""

    number: int
    name: str
    loads: tuple[str, ...]


@frozen(eq=False)
class Reading:
    """The worst row of one part in one column, and the worst standing of all its rows there."""

    row: Row
    standing: Standing


@frozen(eq=False)
class PartLine:
    """One part, or both sides of one: a reading per column, None where there is no row.

    worst: its row of the greatest utilisation. outside: its worst row that is out of range, if any.
    thin: its worst row within the limit by less than a quarter, if any.
    """

    part: str
    noun: str
    both: bool
    cells: tuple[Reading | None, ...]
    worst: Row
    standing: Standing
    outside: Row | None
    thin: Row | None

    @property
    def telling(self) -> Row:
        """The row that decides how the part stands."""
        if self.standing is Standing.RANGE and self.outside is not None:
            return self.outside
        return self.worst

    @property
    def also(self) -> Row | None:
        """A further row that the telling one must not hide: out of range, or thin beside out of range."""
        if self.standing is Standing.OVER and self.worst.in_range:
            return self.outside
        if self.standing is Standing.RANGE and self.thin is not self.telling:
            return self.thin
        return None

    @property
    def name(self) -> str:
        """The part's name, without its side where the line tells both."""
        return plain(self.part.removesuffix(".left") if self.both else self.part)

    @property
    def short(self) -> str:
        """The name for tables."""
        return f"{self.name} (both)" if self.both else self.name

    @property
    def label(self) -> str:
        """The name for running text."""
        if not self.both:
            return self.name
        return f"{self.name}, both {'sides' if self.part.endswith('.left') else 'ends'}"


@frozen(eq=False)
class Folded:
    """All parts, worst first, by all load columns."""

    columns: tuple[LoadColumn, ...]
    lines: tuple[PartLine, ...]
    nouns: Nouns
    by_part: dict[Key, PartLine]

    def line(self, row: Row) -> PartLine:
        """The line that tells a row's part."""
        return self.by_part[row.part, self.nouns.noun(row.part, row.kind)]

    def number(self, load: str) -> int:
        """The number under which a load is shown."""
        return next(column.number for column in self.columns if load in column.loads)

    def load_words(self, load: str) -> str:
        """A load by its number, and which of two mirrored loads it is where both share the number."""
        column = next(column for column in self.columns if load in column.loads)
        side = side_of(load) if len(column.loads) > 1 else ""
        return f"load {column.number}, {side}" if side else f"load {column.number}"

    def load_name(self, load: str) -> str:
        """The name under which a load is shown."""
        return next(column.name for column in self.columns if load in column.loads)


def fold(case: Case, loads: Sequence[str], rows: Iterable[Row]) -> Folded:
    """Parts by loads. Two sides are one line, and two turns one column, only where they agree."""
    nouns = Nouns(case)
    table: dict[Key, dict[str, dict[str, Row]]] = {}  # part -> load -> kind -> row
    homes: dict[tuple[str, str], dict[str, dict[str, Row]]] = {}  # part, kind -> load -> kind -> row
    for row in rows:
        home = homes.get((row.part, row.kind))
        if home is None:
            home = table.setdefault((row.part, nouns.noun(row.part, row.kind)), {})
            homes[row.part, row.kind] = home
        home.setdefault(row.load, {})[row.kind] = row
    known = set(loads)
    swap = {load: mirrored(load) if mirrored(load) in known else load for load in loads}
    twins = {key: (mirrored(key[0]), key[1]) for key in table if key[0].endswith(".left")}
    twins |= {key: (other, key[1]) for key, other in across(case).items() if key in table}
    pairs = {key: twin for key, twin in twins.items() if _agree(table, key, twin, swap)}
    dropped = set(pairs.values())
    alone = [key for key in table if key not in pairs and key not in dropped]
    columns = _columns(loads, swap, turned=all(_agree(table, key, key, swap) for key in alone))
    lines = []
    for key, by_load in table.items():
        if key in dropped:
            continue
        sides = [by_load] + ([table[pairs[key]]] if key in pairs else [])
        by_column = [
            [row for side in sides for load in column.loads for row in side.get(load, NONE).values()]
            for column in columns
        ]
        cells = tuple(map(_reading, by_column))
        found = [cell for cell in cells if cell is not None]
        worst = max((cell.row for cell in found), key=USE)
        every = [row for side in sides for kinds in side.values() for row in kinds.values()]
        outside = _worst([row for row in every if not row.in_range])
        thin = _worst([row for row in every if row.utilisation > LEAST_THIN and is_thin(row)])
        gravest = _gravest(cell.standing for cell in found)
        lines.append(PartLine(*key, key in pairs, cells, worst, gravest, outside, thin))
    lines.sort(key=lambda line: -line.worst.utilisation)
    by_part = {(line.part, line.noun): line for line in lines}
    by_part |= {twin: by_part[key] for key, twin in pairs.items()}
    return Folded(columns, tuple(lines), nouns, by_part)


def _gravest(standings: Iterable[Standing]) -> Standing:
    """The worst of several standings."""
    found = list(standings)
    return next(standing for standing in Standing if standing in found)


def _worst(rows: Sequence[Row]) -> Row | None:
    """The row of the greatest utilisation, if there is one."""
    return max(rows, key=USE, default=None)


def _reading(found: Sequence[Row]) -> Reading | None:
    """The worst of several rows."""
    if not found:
        return None
    worst = max(found, key=USE)
    if any(map(is_over, found)):
        return Reading(worst, Standing.OVER)
    if not all(map(IN_RANGE, found)):
        return Reading(worst, Standing.RANGE)
    return Reading(worst, standing(worst))  # thin or not: no other has less to spare


def _columns(loads: Sequence[str], swap: dict[str, str], *, turned: bool) -> tuple[LoadColumn, ...]:
    """A column per load; one per mirrored pair where all parts read the same under both."""
    columns: list[LoadColumn] = []
    done: set[str] = set()
    for load in loads:
        if load in done:
            continue
        other = swap[load]
        both = (load, other) if turned and other != load else (load,)
        done.update(both)
        columns.append(LoadColumn(len(columns) + 1, plain(either(load) if len(both) == 2 else load), both))
    return tuple(columns)


def _agree(table: dict[Key, dict[str, dict[str, Row]]], key: Key, other: Key, swap: dict[str, str]) -> bool:
    """Whether each row of `key` has an equal one of `other` under the mirrored load, both ways."""
    if other not in table:
        return False
    one, two = table[key], table[other]
    if {swap[load] for load in one} != set(two):
        return False
    return all(
        rows.keys() == two[swap[load]].keys()
        and all(_alike(row, two[swap[load]][kind]) for kind, row in rows.items())
        for load, rows in one.items()
    )


def _alike(one: Row, two: Row) -> bool:
    """Equal to what a report shows."""
    if one.in_range is not two.in_range:
        return False
    greater = max(one.utilisation, two.utilisation)
    return abs(one.utilisation - two.utilisation) <= max(ALIKE * greater, NOUGHT)
