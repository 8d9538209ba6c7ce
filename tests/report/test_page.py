"""The page: whole, escaped, and nothing fetched from elsewhere."""

import re
from html.parser import HTMLParser

import attrs
import pytest

from strength.report.page import summary_page
from strength.report.view import look
from tests.report.outcomes import outcome, rows

VOID = {"meta", "link", "br", "hr", "img", "input"}


class Reader(HTMLParser):
    """Collects tags, attributes and text, and insists that tags are closed in order."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Remember a tag."""
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Close the last open tag."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Remember text outside the style sheet."""
        if self.open and self.open[-1] != "style":
            self.text.append(data)


def read(page: str) -> Reader:
    """The page, parsed."""
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert reader.open == []
    return reader


@pytest.fixture(name="page", scope="module")
def fixture_page() -> str:
    """The page of the invented outcome."""
    return summary_page(look(outcome(), case_path="bracken.toml", load_columns=14, wide=True))


def test_whole(page: str) -> None:
    """Tags are closed, headings stand in order, every part is told."""
    reader = read(page)
    assert page.startswith("<!doctype html>")
    assert [tag for tag, _ in reader.tags].count("h1") == 1
    text = " ".join(reader.text)
    for row in rows():
        assert row.part.removesuffix(".left").removesuffix(".right") in text


def test_nothing_is_fetched(page: str) -> None:
    """No script, no address, no import: it reads the same in a shed without a net."""
    reader = read(page)
    assert not {"script", "link", "img", "iframe", "object", "embed"} & {tag for tag, _ in reader.tags}
    for tag, given in reader.tags:
        for name in ("src", "href", "srcset", "data", "action"):
            assert name not in given, tag
    assert "http" not in page
    assert not re.search(r"url\(|@import", page)


def test_names_are_escaped() -> None:
    """A name that looks like HTML is shown as it was typed, in tables, tags and the drawing."""
    nasty = '<script>alert("1")</script>&amp;'
    given = outcome()
    members = (attrs.evolve(given.case.members[0], name=nasty), *given.case.members[1:])
    told = outcome(
        case=attrs.evolve(given.case, title=nasty, members=members, welds=(), bolts=()),
        rows=(rows()[0]._replace(part=nasty, kind="yielding"),),
        stresses=(),
    )
    page = summary_page(look(told, load_columns=14, wide=True))
    reader = read(page)
    assert "script" not in {tag for tag, _ in reader.tags}
    assert nasty in "".join(reader.text)


def test_printable(page: str) -> None:
    """A4, with colours kept and rows unbroken."""
    style = page[page.index("<style>") : page.index("</style>")]
    assert "size: A4" in style
    assert "break-inside: avoid" in style


def test_every_banner_differs_by_shape(page: str) -> None:
    """Five borders, none the same."""
    found = dict(re.findall(r"\.(?:banner\.)?(caution|over|range|thin|unchecked) \{ border: (\S+ \S+)", page))
    assert len(found) == 5
    assert len(set(found.values())) == 5
