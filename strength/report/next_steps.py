"""What to do next: which part to make bigger, and the command that finds the size."""

import shlex

from strength.report.document import Items, Section
from strength.report.sides import PartLine
from strength.report.standing import Standing
from strength.report.view import View
from strength.report.words import helps, kind_name

MOST = 4
SIZERS = {"weld": "leg", "plate": "thickness", "tube": "screen", "bar": "screen", "box": "screen"}


def next_steps(view: View) -> Section:
    """The next few things a builder should do, most pressing first."""
    steps = [_step(view, line) for line in _pressing(view)]
    if view.outcome.missing_loads:
        steps.append(("Add loads", "one for each kind that is missing, then run this again"))
    if view.outcome.not_checked:
        steps.append(("Judge by hand", 'what stands under "Not checked", or give the case what it lacks'))
    steps.extend(_commands(view))
    steps.append(("Then", "weld and test samples, proof-load the vehicle, ride gently, inspect again"))
    return Section(title="What to do next", body=(Items(items=tuple(steps)),))


def _pressing(view: View) -> list[PartLine]:
    """Parts over their limit, then out of range, then thin."""
    order = list(Standing)
    lines = [line for line in view.folded.lines if line.standing is not Standing.WITHIN]
    return sorted(lines, key=lambda line: order.index(line.standing))[:MOST]


def _step(view: View, line: PartLine) -> tuple[str, str]:
    """What helps one part, and the command that finds its size."""
    text = f"{kind_name(line.worst.kind)}: {helps(line.worst.kind)}"
    command = SIZERS.get(line.noun, "explain")
    if command in view.commands:
        target = line.worst.id if command == "explain" else line.worst.part
        text += f". Run: {_typed(view, command, target)}"
    return line.label, text


def _commands(view: View) -> list[tuple[str, str]]:
    """Commands that help with the whole vehicle."""
    over = any(line.standing is Standing.OVER for line in view.folded.lines)
    useful = [
        ("advise", over, "Cheapest changes"),
        ("payload", not over, "Greatest payload"),
        ("proof", not over, "Test in the shed"),
        ("life", view.outcome.case.road is not None, "Life on the road"),
        ("loads", True, "Forces on the wheels"),
    ]
    return [
        (name, f"Run: {_typed(view, command)}")
        for command, wanted, name in useful
        if wanted and command in view.commands
    ]


def _typed(view: View, command: str, *more: str) -> str:
    """A command line as it is typed."""
    return " ".join(["strength", command, *map(shlex.quote, (view.case_path, *more))])
