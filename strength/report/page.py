"""A page to read and to print: one HTML file, nothing fetched from elsewhere."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

from strength.case.source import fingerprint
from strength.report.banners import CAUTION
from strength.report.drawing import KEY, structure, tag_words, tagged
from strength.report.limit_lines import limit_lines
from strength.report.program import NAME, version
from strength.report.sheet import wheel_sections
from strength.report.summary import summary
from strength.report.views import LOOKS, WIDTH
from strength.vehicle import limits

if TYPE_CHECKING:
    from strength.report.view import View

TEMPLATE = "page.html.jinja"
LOAD_COLUMNS = 14  # that fit on a sheet of paper
MARKS = {"caution": "", "over": "!!! ", "range": "??? ", "thin": "~~~ ", "unchecked": "--- "}


def summary_page(view: "View") -> str:
    """The summary with its drawing and the load sheet; the caution stands first and last."""
    import jinja2
    from markupsafe import Markup

    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
    )
    views, height = structure(view)
    case = view.outcome.case
    told: dict[str, Any] = {
        "document": summary(view),
        "caution": CAUTION,
        "marks": MARKS,
        "key": [(words, *LOOKS[standing]) for standing, words in KEY],
        "views": Markup(views),  # noqa: S704 - every name in it is escaped where it is drawn
        "width": round(WIDTH),
        "height": round(height),
        "tags": [tag_words(line) for line in tagged(view)],
        "sheet": _sheet(view),
        "program": f"{NAME} {version()}",
        "fingerprint": fingerprint(case.data)[:16],
    }
    return environment.get_template(TEMPLATE).render(told) + "\n"


def _sheet(view: "View") -> list[Any]:
    """Limits and wheel forces."""
    outcome = view.outcome
    found = [limit_lines(limits(outcome.case), view.display)] if outcome.case.wheels else []
    return [*found, *wheel_sections(outcome.case, outcome.loads, view.display)]
