"""The stresses behind the worst rows, beside what is allowed, and welds of other qualities."""

from strength.checks.verdict import Row
from strength.report.document import Cell, Column, Grid, Section, plain
from strength.report.sides import PartLine
from strength.report.standing import standing
from strength.report.view import View
from strength.report.weld_qualities import LEAD as QUALITIES
from strength.report.weld_qualities import qualities
from strength.report.words import verdict

SHOWN = 6  # parts of each sort, unless all are asked for
MEMBER_KINDS = ("yielding", "rupture")
THROAT, TOE = "weld-throat", "weld-toe"

LEAD = (
    "Axial: along the part, pull positive. Together: all combined (von Mises) at the worst spot. "
    "Allowed: the strength there, lower beside a weld, divided by its factor."
)


def stresses(view: View) -> Section:
    """Members: axial, bending, shear and torsion, together and allowed. Welds: throat and toe."""
    members, welds = (_worst_rows(view, kinds) for kinds in (MEMBER_KINDS, (THROAT, TOE)))
    cut = max(len(members), len(welds)) > SHOWN
    few = None if view.everything else SHOWN
    shown = [line for line, _ in welds[:few]]
    tables = (_members(view, members[:few]), _welds(view, welds[:few]), qualities(view, shown))
    grids = tuple(grid for grid in tables if grid)
    after = ("The worst of the parts; --all shows every part.",) if cut and not view.everything else ()
    lead = LEAD
    if view.outcome.case.basis.method == "limit-state":
        lead += " Together and throat contain the load factor, the parts before it do not."
    return Section(
        title=f"Stresses behind the worst ({view.display.stress_unit})",
        lead=(f"{lead} {QUALITIES}",) if shown else (lead,),
        body=grids,
        after=after if grids else ("No stress was judged in this case.",),
    )


def _worst_rows(view: View, kinds: tuple[str, ...]) -> list[tuple[PartLine, Row]]:
    """The worst row of each line in these kinds, worst first."""
    found: dict[int, tuple[PartLine, Row]] = {}
    for row in view.outcome.rows:
        if row.kind in kinds:
            line = view.folded.line(row)
            found.setdefault(id(line), (line, row))
    return sorted(found.values(), key=lambda pair: -pair[1].utilisation)


def _members(view: View, worst: list[tuple[PartLine, Row]]) -> Grid | None:
    """Nominal stresses at the worst place of each part."""
    told = {(s.member, s.load): s for s in view.outcome.stresses}
    write = view.display.stress
    rows = []
    for line, row in worst:
        stress = told.get((row.part, row.load))
        if stress is None:
            continue
        parts = (stress.axial, stress.bending, stress.shear, stress.torsion, row.demand, row.limit)
        where = f"{plain(row.where)}, " if row.where else ""
        name = Cell(line.short, f"{where}load {view.folded.number(row.load)}: {verdict(row)}")
        figures = [Cell(write(value)) for value in parts]
        figures[-2] = Cell(write(row.demand) + standing(row).value, standing=standing(row))
        rows.append((name, *figures))
    if not rows:
        return None
    titles = ("axial", "bending", "shear", "torsion", "together", "allowed")
    return Grid(
        columns=(Column("part"), *(Column(title, figures=True) for title in titles)), rows=tuple(rows)
    )


def _welds(view: View, worst: list[tuple[PartLine, Row]]) -> Grid | None:
    """Throat stress of each weld, and that of the metal beside it, under the weld's worst load."""
    told = {(row.part, row.kind, row.load): row for row in view.outcome.rows if row.kind in (THROAT, TOE)}
    rows = []
    for line, row in worst:
        name = Cell(line.short, f"load {view.folded.number(row.load)}: {verdict(row)}")
        pair = [told.get((row.part, kind, row.load)) for kind in (THROAT, TOE)]
        rows.append((name, *(cell for one in pair for cell in _against(view, one))))
    if not rows:
        return None
    titles = ("throat", "allowed", "beside it", "allowed")
    return Grid(
        columns=(Column("weld"), *(Column(title, figures=True) for title in titles)), rows=tuple(rows)
    )


def _against(view: View, row: Row | None) -> tuple[Cell, Cell]:
    """A stress with its mark, and what is allowed."""
    if row is None:
        return Cell("– "), Cell("–")
    write = view.display.stress if row.unit == "MPa" else "{:.2f}".format
    return (
        Cell(write(row.demand) + standing(row).value, standing=standing(row)),
        Cell(write(row.limit)),
    )
