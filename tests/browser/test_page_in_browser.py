"""The page in a browser: it fits a desk and a phone, and prints on A4."""

import re
import subprocess
from pathlib import Path

import pytest

from strength.report.page import summary_page
from strength.report.view import look
from tests.report.outcomes import outcome

pytestmark = pytest.mark.browser

# Tells how wide the page is against its window, and what sticks out.
PROBE = """<script>
const root = document.documentElement;
const out = [...document.body.querySelectorAll("*")].filter(
  (e) => !e.closest(".wide, figure") && e.getBoundingClientRect().right > root.clientWidth + 1);
root.dataset.probe = [root.scrollWidth, root.clientWidth, out.length,
  document.querySelectorAll("h2").length, document.querySelector("figure svg").getBBox().height].join(" ");
</script>"""


def chromium(tmp_path: Path, *arguments: str) -> str:
    """Run a browser without a window; returns what it prints."""
    done = subprocess.run(
        [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
            "--disable-background-networking", f"--user-data-dir={tmp_path / 'profile'}", *arguments,
        ],
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )  # fmt: skip
    return done.stdout


@pytest.fixture(name="page")
def fixture_page(tmp_path: Path) -> Path:
    """The page of the invented outcome, with a probe at its end."""
    page = tmp_path / "page.html"
    text = summary_page(look(outcome(), load_columns=14, wide=True))
    page.write_text(text.replace("</body>", f"{PROBE}</body>"), encoding="utf-8")
    return page


@pytest.mark.parametrize("width", [1280, 800, 390])
def test_fits(tmp_path: Path, page: Path, width: int) -> None:
    """Nothing but tables and the drawing, which scroll by themselves, is wider than the window."""
    dom = chromium(tmp_path, f"--window-size={width},900", "--dump-dom", page.as_uri())
    found = re.search(r'data-probe="(\S+) (\S+) (\S+) (\S+) (\S+)"', dom)
    assert found is not None
    scroll, client, outside, headings, height = map(float, found.groups())
    assert scroll <= client
    assert outside == 0
    assert headings > 10
    assert height > 100.0


def test_prints_on_a4(tmp_path: Path, page: Path) -> None:
    """The sheets are A4 (ISO 216: 210 x 297 mm, in points of 1/72 inch)."""
    target = tmp_path / "page.pdf"
    chromium(tmp_path, f"--print-to-pdf={target}", "--no-pdf-header-footer", page.as_uri())
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", target.read_bytes())
    assert len(boxes) > 1
    for width, height in boxes:
        assert float(width) == pytest.approx(210.0 / 25.4 * 72.0, abs=1.0)
        assert float(height) == pytest.approx(297.0 / 25.4 * 72.0, abs=1.0)
