"""Each way in which a part falls short has its banner, and none hides another."""

import attrs
import pytest
from hypothesis import given

from strength.checks.verdict import Row
from strength.report.banners import banners
from strength.report.document import Document
from strength.report.sides import fold
from strength.report.summary import summary
from strength.report.view import look
from tests.report.outcomes import LOADS, case, outcome, rows
from tests.report.test_sides import NAMES, SOME


def row(part: str, kind: str, u: float, *, inside: bool = True, load: str = "standing") -> Row:
    """A row of a part of its own."""
    first = rows()[0]
    return first._replace(
        part=part, kind=kind, load=load, utilisation=u, demand=u * first.limit, in_range=inside
    )


def told(found: tuple[Row, ...]) -> dict[str, str]:
    """Banners by their kind, all in one line each."""
    given = outcome(rows=found)
    every = banners(given, fold(given.case, [load.name for load in LOADS], found))
    return {banner.kind: " ".join((banner.heading, *banner.lines)) for banner in every}


def document(found: tuple[Row, ...]) -> Document:
    """The whole summary."""
    return summary(look(outcome(rows=found, stresses=()), everything=True))


def test_thin_in_one_check_and_out_of_range_in_another_is_under_both() -> None:
    """A margin of 1/0.88 - 1 = 0.14 stands under thin margin though another check is out of range."""
    found = told((row("beam", "weld-throat", 0.88), row("beam", "chord-wall", 0.3, inside=False)))
    assert "OUT OF RANGE: 1 PART" in found["range"]
    assert "beam (wall under weld)" in found["range"]
    assert "THIN MARGIN: 1 PART" in found["thin"]
    assert "beam (weld throat); least 0.14" in found["thin"]
    assert "over" not in found


def test_one_check_both_thin_and_out_of_range_is_under_both() -> None:
    """A figure outside its source's range that leaves 1/0.94 - 1 = 0.06 is no better than one within."""
    found = told((row("beam", "tab-wall", 0.94, inside=False),))
    assert "beam (wall under tab)" in found["range"]
    assert "beam (wall under tab); least 0.06" in found["thin"]


def test_over_the_limit_and_out_of_range_is_under_both() -> None:
    """The worse of two does not hide the other; what is over its limit is not called within it."""
    found = told((row("beam", "weld-throat", 1.3), row("beam", "chord-wall", 0.9, inside=False)))
    assert "beam, weld throat, over the limit by 30 %" in found["over"]
    assert "beam (wall under weld)" in found["range"]
    assert "thin" not in found


def test_least_margin_is_the_least_of_all() -> None:
    """The least margin is that of the thin rows, not of the first part."""
    found = told(
        (
            row("beam", "chord-wall", 0.95, inside=False),
            row("rail", "yielding", 0.85),
            row("post", "yielding", 0.97),
        )
    )
    assert "3 PARTS" in found["thin"]
    assert "least 0.03" in found["thin"]


@given(SOME)
def test_no_banner_is_missing(found: list[Row]) -> None:
    """Any row over, out of range, or thin on a part that is not over calls for its banner."""
    folded = fold(outcome().case, NAMES, found)
    kinds = {banner.kind for banner in banners(outcome(rows=tuple(found)), folded)}
    over = {r.part for r in found if r.utilisation > 1.0 + 1e-9}
    assert ("over" in kinds) == bool(over)
    assert ("range" in kinds) == any(not r.in_range for r in found)
    lone = [
        r
        for r in found
        if 0.8 + 1e-6 < r.utilisation <= 1.0
        and all(o.utilisation <= 1.0 for o in found if folded.line(o) is folded.line(r))
    ]
    assert ("thin" in kinds) >= bool(lone)


def test_what_governs_tells_the_second_trouble() -> None:
    """Beside out of range stands the thin margin, beside over the limit what is out of range."""
    found = (
        row("beam", "weld-throat", 0.88),
        row("beam", "chord-wall", 0.3, inside=False),
        row("rail", "yielding", 1.3),
        row("rail", "stability", 0.4, inside=False),
    )
    (grid,) = document(found).sections[0].body
    below = {cells[0].text: cells[1].below for cells in grid.rows}
    assert "also weld throat: thin margin 0.14" in below["beam"]
    assert "also buckling: out of range (margin 1.50)" in below["rail"]


def test_what_governs_says_what_it_leaves_out() -> None:
    """Eight parts are shown; how many more fall short, and how, is said."""
    found = tuple(row(f"over-{n}", "yielding", 1.1 + n / 10.0) for n in range(8))
    found += (row("far", "chord-wall", 0.2, inside=False), row("thin", "yielding", 0.9))
    (text,) = document(found).sections[0].after
    assert text == "2 more parts: 1 out of range and 1 with a thin margin; see the margins below."


def test_only_path_is_shown_in_the_figures() -> None:
    """60 of 75 at 1.25 for an only path are at the limit: the factor stands beside the figures."""
    marked = row("beam", "yielding", 1.0)._replace(demand=60.0, limit=75.0)
    section = document((marked,)).sections[0]
    (grid,) = section.body
    assert grid.rows[0][2].below == "60 MPa x 1.25 of 75 MPa"
    assert section.after[0].startswith("x 1.25: marked as the only path")


def test_a_good_load_tells_what_is_out_of_range() -> None:
    """The verdict on a load does not hide that another part is out of range in it."""
    found = (row("beam", "chord-wall", 0.3, inside=False), row("rail", "yielding", 0.5))
    section = next(s for s in document(found).sections if s.title == "Loads")
    cell = section.body[0].rows[0][3]
    assert (cell.text, cell.below) == ("margin 1.00", "1 part out of range")


def test_loads_that_ask_nothing_are_no_pass() -> None:
    """Utilisations of nought prove nothing."""
    (text,) = document((row("beam", "yielding", 0.0),)).closing
    assert text == "These loads ask nothing of any part: nothing here says that it holds."


@pytest.mark.parametrize(
    ("note", "words"),
    [
        ("slides front.left", "front.left slides: more is asked of its tyre than it grips"),
        ("lifts rear", "rear lifts off the road"),
    ],
)
def test_wheel_notes_are_sentences(note: str, words: str) -> None:
    """What slides or lifts is told with the wheel first."""
    given = outcome()
    loads = tuple(attrs.evolve(load, notes=(note,)) for load in given.loads)
    section = next(s for s in summary(look(attrs.evolve(given, loads=loads))).sections if s.title == "Loads")
    assert {text for _, text in section.body[1].items} == {words}


@pytest.mark.parametrize("payload", [True, False])
def test_greatest_payload_is_only_proposed_where_one_is_marked(*, payload: bool) -> None:
    """A case without a payload mass has none to raise."""
    given = case()
    masses = tuple(attrs.evolve(mass, payload=payload) for mass in given.masses)
    told = outcome(case=attrs.evolve(given, masses=masses), rows=(row("beam", "yielding", 0.5),))
    section = summary(look(told, case_path="a.toml", commands=frozenset({"payload"}))).sections[-1]
    steps = " ".join(text for _, text in section.body[0].items)
    assert ("strength payload a.toml" in steps) is payload
