"""Mass against utilisation as an SVG plot, the caution above and below."""

import math
from html import escape

from strength.report.cautions import ONE_LINE
from strength.report.document import plain
from strength.report.standing import Standing
from strength.report.study_words import mass_unit, standing_of
from strength.studies.screened import Candidate, Screened
from strength.units import convert

WIDTH, HEIGHT = 960.0, 600.0
LEFT, RIGHT, TOP, BOTTOM = 80.0, 24.0, 96.0, 84.0
STYLE = (
    "text{font:14px system-ui,sans-serif;fill:#1c1c1c}.title{font-size:20px;font-weight:700}"
    ".small{font-size:12px;fill:#444}.grid{stroke:#ddd}.limit{stroke:#b00020;stroke-width:2}"
)
# marks told apart by shape as well as by colour
MARKS = {
    Standing.OVER: (
        '<path d="M{x} {y}m-5 -5l10 10m0 -10l-10 10" stroke="#b00020" stroke-width="2.5"/>',
        "over",
    ),
    Standing.RANGE: (
        '<path d="M{x} {y}m0 -6l6 6l-6 6l-6 -6z" fill="none" stroke="#7b1fa2" stroke-width="2"/>',
        "out of range",
    ),
    Standing.THIN: (
        '<path d="M{x} {y}m0 -6l6 11h-12z" fill="none" stroke="#8a6d00" stroke-width="2"/>',
        "thin margin",
    ),
    Standing.WITHIN: (
        '<circle cx="{x}" cy="{y}" r="5" fill="none" stroke="#1b5e20" stroke-width="2"/>',
        "within",
    ),
}
LOG_FROM = 6.0  # greatest over least utilisation from which the scale is logarithmic


def plot(found: Screened, system: str) -> str:
    """A whole SVG file: every size a mark, the limit a line, the lightest that passes named."""
    masses = [convert(each.mass, "mass", system) for each in found.candidates]
    uses = [each.utilisation for each in found.candidates]
    across = _Scale(min(masses), max(masses), LEFT, WIDTH - RIGHT, logarithmic=False)
    low, high = min([*uses, 1.0]), max([*uses, 1.0])
    up = _Scale(low, high, HEIGHT - BOTTOM, TOP, logarithmic=low > 0.0 and high / low > LOG_FROM)
    lines = [
        _text(LEFT, 30.0, f"Mass against utilisation: {found.part}", "title"),
        _text(LEFT, 54.0, ONE_LINE, "small"),
        *_grid(across, up, system),
    ]
    y = up.at(1.0)
    lines.append(f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" class="limit"/>')
    lines.append(_text(WIDTH - RIGHT - 60.0, y - 6.0, "limit", "small"))
    for each, x, use in zip(found.candidates, masses, uses, strict=True):
        lines.append(
            _mark(each, across.at(x), up.at(use), named=each is found.lightest or each.size == found.now)
        )
    lines += _key()
    lines.append(_text(LEFT, HEIGHT - 8.0, ONE_LINE, "small"))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {HEIGHT:.0f}" '
        f'width="{WIDTH:.0f}" height="{HEIGHT:.0f}" role="img"><title>{escape(plain(found.part))}</title>'
        f'<style>{STYLE}</style><rect width="100%" height="100%" fill="#fff"/>{"".join(lines)}</svg>\n'
    )


class _Scale:
    """From a value to a place on the sheet."""

    def __init__(self, low: float, high: float, start: float, end: float, *, logarithmic: bool) -> None:
        self.logarithmic = logarithmic
        low, high = (math.log10(low), math.log10(high)) if logarithmic else (low, high)
        room = 0.05 * (high - low) or 0.05 * abs(high) or 1.0
        self.low, self.high = low - room, high + room
        self.start, self.end = start, end

    def at(self, value: float) -> float:
        """The place of a value."""
        inner = math.log10(value) if self.logarithmic else value
        return self.start + (inner - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self) -> list[float]:
        """Round values across the scale."""
        if self.logarithmic:
            powers = range(math.floor(self.low) - 1, math.ceil(self.high) + 1)
            values = [mantissa * 10.0**power for power in powers for mantissa in (1.0, 2.0, 5.0)]
            return [value for value in values if self.low <= math.log10(value) <= self.high]
        step = 10.0 ** math.floor(math.log10((self.high - self.low) / 4.0))
        step *= next(m for m in (1.0, 2.0, 5.0, 10.0) if (self.high - self.low) / (m * step) <= 8.0)
        first = math.ceil(self.low / step)
        return [n * step for n in range(first, math.floor(self.high / step) + 1)]


def _grid(across: _Scale, up: _Scale, system: str) -> list[str]:
    lines = []
    for value in across.ticks():
        x = across.at(value)
        lines.append(f'<path d="M{x:.1f} {TOP}V{HEIGHT - BOTTOM}" class="grid"/>')
        lines.append(_text(x, HEIGHT - BOTTOM + 18.0, f"{value:.4g}", "small", "middle"))
    for value in up.ticks():
        y = up.at(value)
        lines.append(f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" class="grid"/>')
        lines.append(_text(LEFT - 8.0, y + 4.0, f"{value:.3g}", "small", "end"))
    lines.append(_text(LEFT, HEIGHT - BOTTOM + 38.0, f"mass of all members, {mass_unit(system)}"))
    lines.append(
        _text(
            LEFT,
            TOP - 12.0,
            "worst utilisation of the whole case" + (", logarithmic" if up.logarithmic else ""),
        )
    )
    return lines


def _mark(each: Candidate, x: float, y: float, *, named: bool) -> str:
    shape, word = MARKS[standing_of(each.utilisation, in_range=each.in_range)]
    title = escape(plain(f"{each.size}: {each.utilisation:.3f}, {word}, {each.governs}"))
    label = _text(x + 9.0, y - 8.0, each.size) if named else ""
    return f"<g><title>{title}</title>{shape.format(x=f'{x:.1f}', y=f'{y:.1f}')}</g>{label}"


def _key() -> list[str]:
    lines = []
    for number, (shape, word) in enumerate(MARKS.values()):
        x, y = LEFT + 400.0 + 120.0 * number, HEIGHT - BOTTOM + 34.0
        lines.append(shape.format(x=f"{x:.1f}", y=f"{y:.1f}"))
        lines.append(_text(x + 12.0, y + 4.0, word, "small"))
    return lines


def _text(x: float, y: float, text: str, style: str = "", anchor: str = "") -> str:
    kind = f' class="{style}"' if style else ""
    turn = f' text-anchor="{anchor}"' if anchor else ""
    return f'<text x="{x:.1f}" y="{y:.1f}"{kind}{turn}>{escape(plain(text))}</text>'
