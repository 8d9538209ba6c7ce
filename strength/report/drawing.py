"""The drawing: three views, a key, the worst parts by number, and the caution first and last."""

from html import escape
from typing import Any

from strength.report.cautions import CAUTIONS, HEADING
from strength.report.document import plain
from strength.report.outline import outline
from strength.report.sides import PartLine
from strength.report.standing import Standing
from strength.report.view import View
from strength.report.views import LOOKS, WIDTH, views
from strength.report.words import STANDING_WORDS, also, governed, verdict

FEWEST, TAGGED = 6, 12
LINE = 19.0
STYLE = (
    "text{font:14px system-ui,sans-serif;fill:#1c1c1c}"
    ".face{font-size:13px;fill:#666}.tag{font-size:11px;font-weight:700;text-anchor:middle}"
    ".title{font-size:20px;font-weight:700}.heading{font-size:18px;font-weight:700}"
)
KEY: tuple[tuple[Standing | None, str], ...] = (
    (Standing.OVER, "over the limit: thick, solid; joints a square"),
    (Standing.RANGE, "out of range: dotted; joints a diamond"),
    (Standing.THIN, "thin margin: long dashes; joints a triangle"),
    (Standing.WITHIN, "within the limit: thin, solid; joints a ring"),
    (None, "not checked: grey, short dashes"),
)


def tagged(view: View) -> tuple[PartLine, ...]:
    """The parts that get a number: those that do not stand well, or at least the worst few."""
    order = list(Standing)
    lines = sorted(view.folded.lines, key=lambda line: order.index(line.standing))
    short = sum(line.standing is not Standing.WITHIN for line in lines)
    return tuple(lines[: min(max(short, FEWEST), TAGGED)])


def tag_words(line: PartLine) -> str:
    """What stands beside a number."""
    row = line.telling
    text = f"{line.label}: {governed(row.kind, line.noun)}, {verdict(row)}, utilisation {row.utilisation:.2f}"
    return f"{text}; {also(line.also)}" if line.also else text


def structure(view: View) -> tuple[str, float]:
    """SVG elements of the three views and their height."""
    return views(outline(view.outcome.case, view.folded, tagged(view)))


def drawing(view: View) -> str:
    """A whole SVG file."""
    shown, height = structure(view)
    lines: list[str] = []
    y = _caution(lines, 12.0)
    y += 34.0
    lines.append(_text(24.0, y, plain(view.outcome.case.title), "title"))
    y += 12.0
    lines.append(f'<g transform="translate(0 {y:.1f})">{shown}</g>')
    y = _list(view, lines, _key(lines, y + height + LINE) + LINE)
    y = _caution(lines, y + LINE)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {y + 12.0:.0f}" '
        f'width="{WIDTH:.0f}" height="{y + 12.0:.0f}" role="img">'
        f"<title>{escape(plain(view.outcome.case.title))}</title><style>{STYLE}</style>"
        f'<rect width="100%" height="100%" fill="#fff"/>{"".join(lines)}</svg>\n'
    )


def drawing_record(view: View) -> dict[str, Any]:
    """What is drawn, part by part, for other programs; utilisation null: not checked."""
    strokes = outline(view.outcome.case, view.folded, tagged(view))
    return {
        "format": 1,
        "cautions": list(CAUTIONS),
        "title": view.outcome.case.title,
        "parts": [
            {
                "kind": stroke.kind,
                "name": stroke.name,
                "places": stroke.places.tolist(),
                "utilisation": stroke.utilisation,
                "standing": None if stroke.standing is None else STANDING_WORDS[stroke.standing],
            }
            for stroke in strokes
            if stroke.kind != "wheel"
        ],
    }


def _text(x: float, y: float, text: str, style: str = "") -> str:
    """A line of text."""
    kind = f' class="{style}"' if style else ""
    return f'<text x="{x:.1f}" y="{y:.1f}"{kind}>{escape(text)}</text>'


def _caution(lines: list[str], y: float) -> float:
    """The caution in a double frame; returns where it ends."""
    height = LINE * (len(CAUTIONS) + 1) + 16.0
    for inset, stroke in ((0.0, 3.0), (5.0, 1.0)):
        lines.append(
            f'<rect x="{12.0 + inset}" y="{y + inset:.1f}" width="{WIDTH - 24.0 - 2.0 * inset:.1f}" '
            f'height="{height - 2.0 * inset:.1f}" fill="none" stroke="#1c1c1c" stroke-width="{stroke}"/>'
        )
    lines.append(_text(28.0, y + LINE + 4.0, HEADING, "heading"))
    for number, caution in enumerate(CAUTIONS, start=2):
        lines.append(_text(28.0, y + LINE * number + 4.0, caution))
    return y + height


def _key(lines: list[str], y: float) -> float:
    """How each standing is drawn, in words; returns where it ends."""
    for number, (standing, words) in enumerate(KEY):
        colour, width, dashes = LOOKS[standing]
        x, line = 28.0 + 480.0 * (number % 2), y + LINE * (number // 2)
        dash = f' stroke-dasharray="{dashes}"' if dashes else ""
        lines.append(f'<path d="M{x} {line - 4.0:.1f}h34" stroke="{colour}" stroke-width="{width}"{dash}/>')
        lines.append(_text(x + 42.0, line, words))
    return y + LINE * 3.0


def _list(view: View, lines: list[str], y: float) -> float:
    """The worst parts by number; returns where it ends."""
    for number, line in enumerate(tagged(view), start=1):
        lines.append(_text(28.0, y, f"{number}. {tag_words(line)}"))
        y += LINE
    return y
