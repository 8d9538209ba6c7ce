"""What to do next: which part to make bigger, and the command that finds the size."""

import shlex

from strength.report.document import Items, Section, plain
from strength.report.ranges import reasons
from strength.report.sides import PartLine
from strength.report.standing import Standing
from strength.report.view import View
from strength.report.words import helps, kind_name, verdict

MOST = 4
SIZERS = {"plate": "thickness", "tube": "screen", "bar": "screen", "box": "screen"}
WELDS = ("weld-throat", "weld-toe")  # what a larger leg can cure


def next_steps(view: View) -> Section:
    """The next few things a builder should do, most pressing first; a command stands on its own line."""
    steps = [_step(view, line) for line in _pressing(view)]
    if view.outcome.missing_loads:
        steps.append("Add a load for each kind that the case lacks, then run this again.")
    if view.outcome.not_checked:
        steps.append('Judge by hand what stands under "Not checked", or give the case what it lacks.')
    steps.extend(_explained(view, steps))
    steps.extend(_commands(view))
    steps.append("Weld and break samples, proof-load the vehicle, ride gently, inspect again.")
    items = tuple((str(number), step) for number, step in enumerate(steps, start=1))
    return Section(title="What to do next", body=(Items(items=items),))


def _pressing(view: View) -> list[PartLine]:
    """Parts over their limit, then out of range, then thin."""
    order = list(Standing)
    lines = [line for line in view.folded.lines if line.standing is not Standing.WITHIN]
    return sorted(lines, key=lambda line: order.index(line.standing))[:MOST]


def _step(view: View, line: PartLine) -> str:
    """What helps one part, and the command that finds its size."""
    row = line.telling
    if line.standing is Standing.RANGE:
        why = plain(reasons(row) or "its source does not cover this")
        text = f"{line.label} ({kind_name(row.kind)}, out of range): {why}. "
        text += "Change it until it is in range, or have an engineer judge it."
        return text + (f"\n{_typed(view, 'explain', row.id)}" if "explain" in view.commands else "")
    text = f"{line.label} ({kind_name(row.kind)}, {verdict(row)}): {helps(row.kind, line.noun)}."
    command = "leg" if row.kind in WELDS else SIZERS.get(line.noun, "explain")
    if command in view.commands:
        text += f"\n{_typed(view, command, row.id if command == 'explain' else row.part)}"
    return text


def _explained(view: View, steps: list[str]) -> list[str]:
    """The command that shows the worst row worked out, where no step names it already."""
    if "explain" not in view.commands or not view.outcome.rows:
        return []
    worst = view.outcome.rows[0]
    command = _typed(view, "explain", f"{worst.part}/{worst.kind}")
    return [] if any(command in step for step in steps) else [f"See the worst figure worked out:\n{command}"]


def _commands(view: View) -> list[str]:
    """Commands that help with the whole vehicle."""
    case = view.outcome.case
    carries = any(mass.payload for mass in case.masses)
    over = any(line.standing is Standing.OVER for line in view.folded.lines)
    useful = [
        ("advise", over, "Find the cheapest changes"),
        ("payload", carries and not over, "Find the greatest payload"),
        ("proof", not over, "Plan a test in the shed"),
        ("life", case.road is not None, "Look at its life on the road"),
        ("loads", bool(case.wheels), "See the forces on the wheels"),
    ]
    return [
        f"{purpose}:\n{_typed(view, command)}"
        for command, wanted, purpose in useful
        if wanted and command in view.commands
    ]


def _typed(view: View, command: str, *more: str) -> str:
    """A command line as it is typed."""
    return plain(" ".join(["strength", command, *map(shlex.quote, (view.case_path, *more))]))
