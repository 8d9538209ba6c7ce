"""What the command `explain` prints, records and leaves with."""

import json
from pathlib import Path

import attrs
import pytest
from rich.cells import cell_len

from strength.__main__ import main
from strength.case import read_case
from strength.report.console import as_text
from strength.report.explained import explained_document, explained_exit
from strength.report.hand_units import HandUnits
from strength.run import run
from strength.studies.explain.register import explain_row
from tests.studies.explain.worked import OWN, ROOT

ARM = ROOT / "cases" / "one-arm" / "case.toml"
INCH = ROOT / "cases" / "plates" / "case.toml"


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    """Exit code, standard output and standard error of a command line."""
    code = main(["explain", *arguments])
    shown = capsys.readouterr()
    return code, shown.out, shown.err


def worst() -> tuple:
    """The worst row of the bench arm, explained."""
    outcome = run(read_case(ARM))
    assert outcome.context is not None
    return outcome, explain_row(outcome.context, outcome.rows[0])


def test_check_is_worked_out(capsys: pytest.CaptureFixture[str]) -> None:
    """Every section is there, the caution first and last, no line longer than 80."""
    outcome, _ = worst()
    row = outcome.rows[0]
    code, out, err = told(capsys, str(ARM), row.id)
    for title in ("What is asked", "What goes in", "Worked out", "Compared", "Where it stands"):
        assert f"\n{title} " in out
    assert out.count("AN ESTIMATE, NOT A PROOF OF SAFETY") == 2
    assert "The two agree" in out
    assert row.source.split(",")[0] in out
    assert not err
    assert max(map(cell_len, out.splitlines())) <= 80
    assert code == (1 if row.utilisation > 1.0 else 0 if row.in_range else 3)


def test_record_holds_every_number(capsys: pytest.CaptureFixture[str]) -> None:
    """Unrounded inputs and steps, the row and what came out by hand."""
    outcome, found = worst()
    _, out, _ = told(capsys, str(ARM), outcome.rows[0].id, "--json", "-")
    record = json.loads(out)
    assert record["agrees"] is True
    assert record["id"] == outcome.rows[0].id
    assert record["by_hand"]["utilisation"] == found.utilisation
    assert record["row"]["utilisation"] == outcome.rows[0].utilisation
    symbols = [line["symbol"] for line in (*record["inputs"], *record["steps"])]
    assert len(symbols) == len(set(symbols))
    assert all(line["origin"] for line in record["inputs"])
    assert record["steps"][-1]["symbol"] == "u"


LAPPED = str(next(path for path in OWN if path.stem == "lapped"))


def test_table_is_shown_in_part_and_recorded_whole(capsys: pytest.CaptureFixture[str]) -> None:
    """A weld in 360 pieces: one of 20 on the console, all in the record, the sums of stretches and of all."""
    code, out, _ = told(capsys, LAPPED, "lap/weld-throat/skew")
    assert code == 0
    lines = out.splitlines()
    assert max(map(cell_len, lines)) <= 80
    assert "piece  rho, mm" in out
    _, text, _ = told(capsys, LAPPED, "lap/weld-throat/skew", "--json", "-")
    (table,) = json.loads(text)["tables"]
    assert len(table["pieces"]) == 360
    heads = [column["symbol"] for column in table["columns"]]
    force = [row[heads.index("R_y")] for row in table["pieces"]]
    assert sum(force) == pytest.approx(table["wholes"]["sum_y"])
    stretches = [line.split() for line in lines if " to " in line and line[0].isdigit()]
    assert [(int(cells[0]), int(cells[2])) for cells in stretches] == [
        (n + 1, n + 20) for n in range(0, 360, 20)
    ]
    for cells in stretches:
        assert float(cells[3]) == pytest.approx(sum(force[int(cells[0]) - 1 : int(cells[2])]), rel=1e-5)
    turns = [row[heads.index("turn")] for row in table["pieces"]]
    decides = turns.index(min(turns)) + 1
    assert f"of piece {decides}" in " ".join(out.split())
    shown = [line.split() for line in lines if line.split()[:1] == [str(decides)]]
    assert len(shown) == 3


@pytest.mark.parametrize("load", ["skew", "turn", "aside"])
@pytest.mark.parametrize("part", ["lap", "rows", "ring", "foot"])
def test_no_line_is_too_long(capsys: pytest.CaptureFixture[str], part: str, load: str) -> None:
    """Welds by their direction or their group's strength, in 80 columns."""
    code, out, err = told(capsys, LAPPED, f"{part}/weld-throat/{load}")
    assert code in (0, 3)
    assert not err
    assert "The two agree" in out
    assert max(map(cell_len, out.splitlines())) <= 80


def test_part_lists_its_checks(capsys: pytest.CaptureFixture[str]) -> None:
    """Worst first, with the command for one."""
    outcome, _ = worst()
    part = outcome.rows[0].part
    code, out, _ = told(capsys, str(ARM), part)
    own = [row for row in outcome.rows if row.part == part]
    places = [out.index(f"{row.kind}/") for row in own]
    assert places == sorted(places)
    assert f"strength explain {ARM} " in " ".join(out.split())
    assert code in (0, 1, 3)


def test_unknown_check_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 2, one message, nothing on standard output."""
    outcome, _ = worst()
    wrong = outcome.rows[0].id.replace("/", "/x", 1)
    code, out, err = told(capsys, str(ARM), wrong)
    assert (code, out) == (2, "")
    assert repr(wrong) in err
    assert outcome.rows[0].part in err


def test_loads_are_explained(capsys: pytest.CaptureFixture[str]) -> None:
    """A load by name: masses, balance, comparison; `loads` lists them."""
    case = ROOT / "cases" / "quad" / "case.toml"
    name = read_case(case).loads[0].name
    code, out, _ = told(capsys, str(case), "loads")
    assert code == 0
    assert name in out
    code, out, _ = told(capsys, str(case), f"loads/{name}")
    assert code == 0
    assert "weight, N" in out
    assert "The two agree" in out
    assert max(map(cell_len, out.splitlines())) <= 80


def test_disagreement_is_loud() -> None:
    """A row that the sheet does not come to: a banner first, the words at the comparison, exit 1."""
    _, found = worst()
    row = found.row._replace(demand=0.5 * found.row.demand, utilisation=0.5 * found.row.utilisation)
    off = attrs.evolve(found, row=row)
    assert not off.agrees
    text = as_text(explained_document(off), 80)
    assert "INTERNAL ERROR" in text
    assert "THE TWO DO NOT AGREE" in text
    assert explained_exit(off) == 1
    assert "INTERNAL ERROR" not in as_text(explained_document(found), 80)


@pytest.mark.parametrize(
    ("value", "dimension", "metric", "inch"),
    [  # 1 in = 25.4 mm and 1 lbf = 4.4482216 N (ISO 80000, exact by definition)
        (25.4, "length", "25.4 mm", "1 in"),
        (645.16, "area", "645.16 mm^2", "1 in^2"),
        (4.4482216152605, "force", "4.44822 N", "1 lbf"),
        (112.984829, "moment", "112.985 N*mm", "1 lbf*in"),
        (6.894757293, "stress", "6.89476 MPa", "1000 psi"),
        (0.175126835, "flow", "0.175127 N/mm", "1 lbf/in"),
        (1.5707963267948966, "angle", "90 deg", "90 deg"),
        (0.25, "1", "0.25", "0.25"),
        (2.0, "1/area", "2 1/mm^2", "1290.32 1/in^2"),
    ],
)
def test_units_go_together(value: float, dimension: str, metric: str, inch: str) -> None:
    """Metric and inch figures of one value."""
    assert HandUnits("metric").show(value, dimension) == metric
    assert HandUnits("inch").show(value, dimension) == inch


def test_summary_does_not_load_it(tmp_path: Path) -> None:
    """Nothing of it is imported by a summary."""
    import subprocess
    import sys

    code = (
        "import sys; from strength.__main__ import main; "
        f"main(['summary', {str(ARM)!r}, '--json', {str(tmp_path / 'record.json')!r}]); "
        "print([m for m in sys.modules if 'explain' in m and m != 'strength.cli_explain'])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stdout.strip().splitlines()[-1] == "[]"
