"""The console: fixed-width snapshots, and what no width, pipe or odd name may break."""

import io
import re
from pathlib import Path

import attrs
import pytest
from rich.cells import cell_len

from strength.report.console import ROOM_BESIDE, as_text, load_columns, show, width_of
from strength.report.sheet import sheet
from strength.report.summary import summary
from strength.report.view import look
from tests.report.outcomes import LIMITS, outcome, rows

HERE = Path(__file__).parent
COMMANDS = frozenset({"summary", "loads", "screen", "thickness", "leg", "advise", "explain"})


def told(width: int, *, everything: bool = False, **changes: object) -> str:
    """The summary as the command line shows it."""
    view = look(
        outcome(**changes),
        case_path="bracken.toml",
        commands=COMMANDS,
        everything=everything,
        load_columns=load_columns(width),
        wide=width >= ROOM_BESIDE,
    )
    return as_text(summary(view), width)


def load_sheet(width: int) -> str:
    """The load sheet as the command line shows it."""
    given = outcome()
    return as_text(sheet(given.case, given.loads, LIMITS, given.missing_loads), width)


@pytest.mark.parametrize("width", [80, 120])
def test_summary_snapshot(width: int) -> None:
    """Read by eye when it was made; a change must be read again."""
    assert told(width) == (HERE / f"summary_{width}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("width", [80, 120])
def test_load_sheet_snapshot(width: int) -> None:
    """Read by eye when it was made; a change must be read again."""
    assert load_sheet(width) == (HERE / f"loads_{width}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("everything", [False, True])
@pytest.mark.parametrize("width", [80, 97, 110, 120])
def test_no_line_is_wider_and_nothing_is_cut(width: int, *, everything: bool) -> None:
    """No line over the width, no ellipsis, and every part's name whole somewhere."""
    text = told(width, everything=everything)
    assert max(map(cell_len, text.splitlines())) <= width
    assert "…" not in text
    assert "\x1b" not in text
    for row in rows()[:40]:
        assert row.part.removesuffix(".left").removesuffix(".right") in text


def test_everything_shows_every_part_under_every_load() -> None:
    """With --all each part has a margin in each column."""
    text = told(80, everything=True)
    start, end = text.index("Margins by part and load"), text.index("Stresses behind")
    numbers = re.findall(r"^part, governed by +(.*)$", text[start:end], re.MULTILINE)
    assert [int(n) for line in numbers for n in line.split()] == list(range(1, 11))
    assert "--all shows" not in text


def test_long_names_are_folded_not_cut() -> None:
    """A name longer than its column goes on in the next line."""
    name = "a-very-long-name-of-a-bracket-that-nobody-would-type-twice-in-one-file"
    text = told(80, rows=(rows()[0]._replace(part=name),))
    assert name in re.sub(r"\s+", "", text)
    assert max(map(cell_len, text.splitlines())) <= 80


def test_names_cannot_steer_the_terminal() -> None:
    """Control characters and markup in a name are shown, not obeyed."""
    odd = rows()[0]._replace(part="[bold red]arm[/]\x1b[2J\u202e:smile:")
    text = told(80, rows=(odd,))
    assert "[bold red]arm[/]·[2J·:smile:" in text
    assert "\x1b" not in text


def test_thin_and_out_of_range_are_told_without_colour() -> None:
    """Each banner has a frame of its own and words of its own."""
    lines = told(80).splitlines()
    above = {
        heading: lines[next(n for n, line in enumerate(lines) if heading in line) - 1][:3]
        for heading in ("CAUTION", "OVER THE LIMIT", "OUT OF RANGE", "THIN MARGIN", "NOT CHECKED")
    }
    assert len(set(above.values())) == len(above)


def test_all_well_has_no_verdict_banner() -> None:
    """Where all is within the limit only the caution is framed."""
    few = tuple(row._replace(utilisation=row.utilisation / 4.0, in_range=True) for row in rows())
    text = told(80, rows=few, not_checked=(), missing_loads=())
    for heading in ("OVER THE LIMIT", "OUT OF RANGE", "THIN MARGIN", "NOT CHECKED"):
        assert heading not in text
    assert "No part is over its limit under these loads. Least margin" in text


def test_nothing_checked_is_said() -> None:
    """No row is no pass."""
    text = told(80, rows=(), stresses=())
    assert "nothing here says that it holds" in text
    assert "Nothing could be checked." in text


def test_inch_units() -> None:
    """1 ksi = 6.894757 MPa (NIST SP 811, table B.8): 136 MPa are 19.7 ksi."""
    given = outcome()
    text = told(80, case=attrs.evolve(given.case, units="inch"))
    assert "of 19.7 ksi" in text
    assert "MPa" not in text


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Say so."""
        return True


def test_colour_only_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Escape codes reach a terminal only, and there the words are the same."""
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    document = summary(look(outcome()))
    screen, pipe = Terminal(), io.StringIO()
    show(document, screen, 80)
    show(document, pipe, 80)
    assert "\x1b[" in screen.getvalue()
    assert "\x1b[" not in pipe.getvalue()
    bare = re.sub(r"\x1b\[[0-9;]*m", "", screen.getvalue())
    assert [line.rstrip() for line in bare.splitlines()] == pipe.getvalue().splitlines()


@pytest.mark.parametrize(("columns", "width"), [("20", 80), ("100", 100), ("400", 120)])
def test_width(columns: str, width: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between 80 and 120, whatever the window."""
    monkeypatch.setenv("COLUMNS", columns)
    assert width_of(io.StringIO()) == width
