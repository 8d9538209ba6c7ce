"""Files are written whole or not at all, and never over the case."""

import errno
import os
import stat
from pathlib import Path

import pytest

from strength.errors import OutputError
from strength.report.writing import create, refuse, write, write_all


def test_write_replaces_whole(tmp_path: Path) -> None:
    """The new text stands there, the old mode is kept, and nothing else is left behind."""
    target = tmp_path / "out.json"
    target.write_text("old and longer")
    target.chmod(0o640)
    write(str(target), "new °\n")
    assert target.read_bytes() == "new °\n".encode()
    assert stat.S_IMODE(target.stat().st_mode) == 0o640
    assert [path.name for path in tmp_path.iterdir()] == ["out.json"]


def test_new_files_heed_the_mask(tmp_path: Path) -> None:
    """A new file gets the mode that the user's mask leaves."""
    before = os.umask(0o027)
    try:
        write(str(tmp_path / "out.json"), "x")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "out.json").stat().st_mode) == 0o640


def test_failure_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A write that fails half way changes nothing."""
    target = tmp_path / "out.json"
    target.write_text("old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(OutputError, match="No space left on device"):
        write(str(target), "new")
    assert target.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["out.json"]


def test_through_a_link(tmp_path: Path) -> None:
    """A link stays a link; what it points to is written."""
    real = tmp_path / "real.json"
    real.write_text("old")
    link = tmp_path / "link.json"
    link.symlink_to(real)
    write(str(link), "new")
    assert link.is_symlink()
    assert real.read_text() == "new"


def test_standard_output_comes_last(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Files first: a reader of standard output finds them there."""
    write_all([("-", "shown\n"), (str(tmp_path / "kept"), "kept")])
    assert capsys.readouterr().out == "shown\n"
    assert (tmp_path / "kept").read_text() == "kept"


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("", "is not a file"),
        (".", "is not a file"),
        ("none/out.json", "there is no folder"),
        ("case.toml", "is the case file itself"),
        ("./nothing/../case.toml", "there is no folder"),
        ("link.toml", "is the case file itself"),
    ],
)
def test_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, why: str) -> None:
    """Refused before anything is computed, and nothing is left behind."""
    monkeypatch.chdir(tmp_path)
    Path("case.toml").write_text("title = 'x'")
    Path("link.toml").symlink_to("case.toml")
    with pytest.raises(OutputError, match=why):
        refuse([name], inputs=["case.toml"])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["case.toml", "link.toml"]


def test_one_file_for_two_outputs(tmp_path: Path) -> None:
    """Two outputs into one file would lose one of them; spelled differently too."""
    with pytest.raises(OutputError, match="asked for twice"):
        refuse([str(tmp_path / "out"), f"{tmp_path}/./out"])
    with pytest.raises(OutputError, match="asked for twice"):
        refuse(["-", "-"])


def test_good_paths(tmp_path: Path) -> None:
    """A new file, an old one, standard output and a device are fine."""
    (tmp_path / "old").write_text("old")
    refuse([str(tmp_path / "new"), str(tmp_path / "old"), "-", "/dev/null"], inputs=[str(tmp_path / "case")])
    assert [path.name for path in tmp_path.iterdir()] == ["old"]
    write("/dev/null", "gone")
    assert not Path("/dev/null").is_file()


def test_create_never_replaces(tmp_path: Path) -> None:
    """A new file is written whole; one that is there stays, and nothing is left beside it."""
    target = tmp_path / "case.toml"
    create(str(target), "first")
    with pytest.raises(OutputError, match="is there already"):
        create(str(target), "second")
    assert target.read_text(encoding="utf-8") == "first"
    assert [path.name for path in tmp_path.iterdir()] == ["case.toml"]


def test_create_without_links(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the file system knows no links, the file is still made only if it is new."""

    def no_links(*_: object) -> None:
        raise OSError(errno.EPERM, "no links here")

    monkeypatch.setattr(os, "link", no_links)
    target = tmp_path / "case.toml"
    create(str(target), "first")
    with pytest.raises(OutputError, match="is there already"):
        create(str(target), "second")
    assert target.read_text(encoding="utf-8") == "first"
