"""Files that are no case files: one clear message each."""

import hashlib

import pytest

from strength.case import case_from_text, read_case
from strength.case.source import fingerprint
from strength.errors import CaseError
from tests.case.cases import BENCH


def refusal(path) -> str:
    """The whole message of a file that is refused."""
    with pytest.raises(CaseError) as caught:
        read_case(path)
    message = str(caught.value)
    assert "\n" not in message
    return message


def test_missing_file(tmp_path):
    """A wrong name is told as such."""
    message = refusal(tmp_path / "trike.toml")
    assert message == f"{tmp_path / 'trike.toml'}: there is no such file: check the name and the folder"


def test_folder(tmp_path):
    """A folder is no file."""
    assert "is a folder: give the case file in it" in refusal(tmp_path)


def test_unreadable_name():
    """A name that no file can have."""
    assert "cannot be read" in refusal("a\0b.toml")


def test_not_utf8(tmp_path):
    """Another encoding is told with the line."""
    file = tmp_path / "latin.toml"
    file.write_bytes("title = 'x'\nnotes = 'größe'\n".encode("latin-1"))
    assert "is not a text in UTF-8 (line 2): save it as UTF-8" in refusal(file)


def test_not_toml(tmp_path):
    """A slip of the pen is told with its line."""
    file = tmp_path / "slip.toml"
    file.write_text("title = 'x'\n[points\nfoot = 1\n", encoding="utf-8")
    message = refusal(file)
    assert "is not a case file in TOML" in message
    assert "line 2" in message
    assert "[points" in message


@pytest.mark.parametrize(
    "text", ["x = " + "[" * 100_000, "x = " + "9" * 10_000, "\0", "title = 'a'\ntitle = 'b'"]
)
def test_hostile_toml(text):
    """Nesting without end, numbers without end, signs that are none, a key twice."""
    with pytest.raises(CaseError) as caught:
        case_from_text(text)
    assert "is not a case file" in str(caught.value)


def test_empty_file(tmp_path):
    """An empty file lacks its title."""
    file = tmp_path / "empty.toml"
    file.write_text("", encoding="utf-8")
    assert refusal(file) == "`title` is missing: a line that says what the case is"


def test_fingerprint_is_of_the_bytes(tmp_path):
    """SHA-256 of the file as it lies on the disk, byte order mark and line ends included."""
    data = b"\xef\xbb\xbf" + BENCH.replace("\n", "\r\n").encode()
    file = tmp_path / "windows.toml"
    file.write_bytes(data)
    case = read_case(file)
    assert fingerprint(case.data) == hashlib.sha256(data).hexdigest()
    assert case.members[0].name == "arm"


def test_text_and_file_are_one(tmp_path):
    """A case in a text is the case in a file of that text."""
    file = tmp_path / "bench.toml"
    file.write_bytes(BENCH.encode())
    assert read_case(str(file)) == case_from_text(BENCH, "bench")
