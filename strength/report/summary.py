"""The summary of a case as a document: what console and page both show."""

from strength.report.banners import banners
from strength.report.display import margin
from strength.report.document import Document, plain
from strength.report.governs import governs
from strength.report.lists import assumed, not_checked, read_as, warnings
from strength.report.load_lines import load_lines
from strength.report.margins import margins
from strength.report.movement import movement
from strength.report.next_steps import next_steps
from strength.report.only_paths import only_paths
from strength.report.reach import reach
from strength.report.standing import Standing
from strength.report.stresses import stresses
from strength.report.view import View
from strength.report.words import count, kind_name

SECTIONS = (
    governs, load_lines, margins, stresses, movement, only_paths,
    not_checked, warnings, assumed, read_as, reach, next_steps,
)  # fmt: skip


def summary(view: View) -> Document:
    """All sections of a summary, in reading order."""
    case, rows = view.outcome.case, view.outcome.rows
    basis = "allowable stresses" if case.basis.method == "allowable" else "limit states"
    sections = (section(view) for section in SECTIONS)
    return Document(
        title=plain(case.title),
        subtitle=f"{count(len(view.outcome.loads), 'load')}, {count(len(rows), 'check')}, {basis}",
        banners=banners(view.outcome, view.folded),
        sections=tuple(section for section in sections if section is not None),
        closing=(_closing(view),),
    )


def _closing(view: View) -> str:
    """The verdict in one sentence."""
    lines = view.folded.lines
    if not lines:
        return "Nothing could be checked."
    over = sum(line.standing is Standing.OVER for line in lines)
    least = lines[0].worst
    if over:
        verb = "is" if over == 1 else "are"
        return f"{count(over, 'part')} of {len(lines)} {verb} over the limit."
    if any(line.standing is Standing.RANGE for line in lines):
        return "No part is over its limit, but some checks are out of range and prove nothing."
    if least.margin is None:
        return "These loads ask nothing of any part: nothing here says that it holds."
    return (
        f"No part is over its limit under these loads. Least margin {margin(least.margin)}: "
        f"{lines[0].label}, {kind_name(least.kind)}."
    )
