"""A table on the sheet: many pieces of one kind, each worked out by the same formulas."""

from collections.abc import Mapping, Sequence

import attrs

from strength.studies.explain.formula import value_of


@attrs.frozen(kw_only=True)
class Column:
    """A number of each piece; formula "": it is given.

    gathered: "sum" or "least" of all pieces, which the sheet knows from then on as `whole`; "": neither.
    """

    symbol: str
    dimension: str
    what: str
    formula: str = ""
    gathered: str = ""
    whole: str = ""


@attrs.frozen(kw_only=True)
class Table:
    """Columns, and their values piece by piece; `wholes`: what is gathered of them.

    per: pieces of a stretch, of which a reader is shown one, and the sums.
    """

    what: str
    origin: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[float, ...], ...]
    wholes: Mapping[str, float]
    per: int

    def least(self) -> tuple[tuple[Column, int], ...]:
        """Columns of which the least counts, and the number of the piece that has it."""
        found = []
        for n, column in enumerate(self.columns):
            if column.gathered == "least":
                values = [row[n] for row in self.rows]
                found.append((column, values.index(min(values))))
        return tuple(found)

    def gathered(self, first: int, last: int) -> tuple[tuple[Column, float], ...]:
        """The sums over the pieces first to last - 1."""
        return tuple(
            (column, sum(row[n] for row in self.rows[first:last]))
            for n, column in enumerate(self.columns)
            if column.gathered == "sum"
        )


def tabled(
    what: str,
    origin: str,
    columns: Sequence[Column],
    given: Mapping[str, Sequence[float]],
    symbols: Mapping[str, float],
    per: int,
) -> Table:
    """Work a table out, column after column.

    A formula takes symbols of the sheet, what stands before it in its own row, and what has been gathered
    of the columns before it. given: the values of columns without one. symbols: of the sheet.
    """
    known, wholes = dict(symbols), dict[str, float]()
    count = len(next(iter(given.values())))
    own: list[dict[str, float]] = [{} for _ in range(count)]
    for column in columns:
        if column.symbol in known or (own and column.symbol in own[0]):
            raise KeyError(f"{column.symbol} is written down twice")
        values = given.get(column.symbol, ())
        for n, row in enumerate(own):
            found = value_of(column.formula, known | row) if column.formula else float(values[n])
            row[column.symbol] = found + 0.0
        if column.gathered:
            every = [row[column.symbol] for row in own]
            whole = sum(every) if column.gathered == "sum" else min(every)
            known[column.whole] = wholes[column.whole] = whole
    rows = tuple(tuple(row[column.symbol] for column in columns) for row in own)
    return Table(what=what, origin=origin, columns=tuple(columns), rows=rows, wholes=wholes, per=per)
