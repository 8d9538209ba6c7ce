"""What is told of parts that alone carry a wheel."""

import attrs

from strength.frame.loss import Loss
from strength.report.document import Grid
from strength.report.only_paths import only_paths, worst_margin
from strength.report.record import summary_record
from strength.report.view import look
from tests.report.outcomes import outcome


def told(losses, *, everything=False, marked=()):
    """The section's lines, and what stands after them."""
    whole = outcome()
    case = attrs.evolve(
        whole.case,
        members=tuple(attrs.evolve(m, only_path=m.name in marked) for m in whole.case.members),
    )
    section = only_paths(look(attrs.evolve(whole, case=case, losses=losses), everything=everything))
    assert section is not None
    (grid,) = section.body
    assert isinstance(grid, Grid)
    return [tuple(cell.text for cell in row) for row in grid.rows], section.after


def test_both_sides_are_one_line():
    """Left and right read the same; what one side alone loses stands on its own."""
    losses = (
        Loss(part="lower-front.left", wheels=("front.left",)),
        Loss(part="lower-front.right", wheels=("front.right",)),
        Loss(part="main-tube", wheels=("front.left", "front.right"), tows=("eye",)),
        Loss(part="knuckle.left", brakes=("front.left",)),
    )
    lines, after = told(losses, marked=("main-tube",))
    assert {line[:2] for line in lines} == {
        ("lower-front (both)", "wheel front on its side"),
        ("main-tube", "wheels front.left and front.right; tow eye"),
        ("knuckle.left", "brake of front.left"),
    }
    assert dict(line[::3] for line in lines)["main-tube"] == "yes"
    (bare,) = after
    assert "main-tube" not in bare
    assert "lower-front (both)" in bare


def test_least_margin_first_and_the_rest_on_request():
    """By hand: 1/u - 1 of the worst of the part's own rows."""
    names = [member.name for member in outcome().case.members]
    losses = tuple(Loss(part=name, wheels=("rear",)) for name in names)
    lines, _ = told(losses, everything=True)
    rows = outcome().rows
    order = [line[0].removesuffix(" (both)") for line in lines]
    worst = {
        name: max((row.utilisation for row in rows if row.part in (name, f"{name}.left")), default=0.0)
        for name in order
    }
    assert sorted(order, key=lambda name: -worst[name]) == order
    few, after = told(losses)
    assert few == lines[: len(few)]
    if len(lines) > len(few):
        assert "--all shows them" in after[0]
    part = rows[0].part
    assert worst_margin(part, rows) == 1.0 / max(r.utilisation for r in rows if r.part == part) - 1.0
    assert worst_margin("nobody", rows) is None


def test_nothing_lost_and_not_looked_at():
    """No section where every part has a second; a plain word where the frame was too large to try."""
    assert only_paths(look(attrs.evolve(outcome(), losses=()))) is None
    section = only_paths(look(attrs.evolve(outcome(), losses=None)))
    assert section is not None
    assert "too large" in section.lead[0]


def test_record():
    """Scripts read the same."""
    losses = (Loss(part="main-tube", wheels=("rear",), brakes=("front.left",)),)
    (entry,) = summary_record(attrs.evolve(outcome(), losses=losses))["only_paths"]
    assert (entry["part"], entry["wheels"], entry["brakes"], entry["tows"]) == (
        "main-tube",
        ["rear"],
        ["front.left"],
        [],
    )
    assert entry["margin"] == worst_margin("main-tube", outcome().rows)
    assert entry["only_path"] is False
