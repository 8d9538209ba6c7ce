"""Excerpts of real output in the README files of `cases/`, and how they are brought up to date.

An excerpt is a fenced block behind the command that prints it:

    ```sh
    strength summary cases/one-arm/case.toml  # leaves with 1
    ```

    ```text section="What governs" lines=9
    ...
    ```

`section` is the beginning of a heading of the output at 80 columns; `lines`, if given, how many lines of
it stand in the file. `python -m tests.cases.excerpts` writes every excerpt anew; read the difference
before it is committed, for the words around it were written for the old one.
"""

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import attrs

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(
    r'```text section="(?P<section>[^"]+)"(?: lines=(?P<lines>\d+))?\n(?P<text>.*?)```\n', re.DOTALL
)
COMMAND = re.compile(r"```sh\n(?P<command>strength [^\n#]+?)\s*# leaves with (?P<code>\d)\n```\n")

MIDDLE = "how it would fail"


@attrs.frozen
class Shown:
    """What a command printed, and the exit code it left with."""

    text: str
    code: int


def printed(command: str) -> Shown:
    """Run a command of the README from the project's folder, on a screen of 80 columns."""
    done = subprocess.run(
        [sys.executable, "-m", *shlex.split(command)],
        cwd=ROOT,
        env=os.environ | {"COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    return Shown(done.stdout, done.returncode)


def excerpt(text: str, section: str, lines: str | None) -> str:
    """A section of an output, or its first lines, heading included, blank lines at its end left out."""
    every = [line.rstrip() for line in text.splitlines()]
    heads = [i for i, line in enumerate(every) if line.endswith("──") and line[0].isalpha()]
    start = next(i for i in heads if every[i].startswith(section))
    end = next((i for i in heads if i > start), len(every))
    shown = every[start : end if lines is None else min(end, start + int(lines))]
    return "\n".join(shown).rstrip("\n") + "\n"


def told(text: str) -> list[str]:
    """What an excerpt tells, apart from where twins that tie to the last digit let one of them win.

    Of a table with three columns of words the middle one, the place, is left out, and rows are sorted:
    left and right, or the two ends of a part, may carry the same to rounding, and the last bit of a
    figure differs from one processor to the next. Anything else stands as it is.
    """
    lines = text.splitlines()
    head = next((line for line in lines if MIDDLE in line and "verdict" in line), None)
    if head is None:
        return lines
    middle, last = head.index(MIDDLE), head.index("verdict")
    start = lines.index(head) + 2
    rows: list[list[str]] = []
    for line in lines[start:]:
        first, verdict = line[:middle].rstrip(), line[last:].strip()
        if first and not first.startswith((" ", "(")):
            rows.append(["", ""])
        rows[-1] = [
            f"{old} {new.strip()}".strip() for old, new in zip(rows[-1], (first, verdict), strict=True)
        ]
    one_side = (" | ".join(row).replace(".right", ".left") for row in rows)
    return [*lines[: start - 2], *sorted(one_side)]


def readmes() -> list[Path]:
    """README files of cases that hold excerpts."""
    found = sorted((ROOT / "cases").glob("*/README.md"))
    return [path for path in found if BLOCK.search(path.read_text(encoding="utf-8"))]


def commands(text: str) -> Iterator[tuple[re.Match[str], list[re.Match[str]]]]:
    """Each command of a README with the excerpts that follow it."""
    found = list(COMMAND.finditer(text))
    for i, command in enumerate(found):
        end = found[i + 1].start() if i + 1 < len(found) else len(text)
        yield command, list(BLOCK.finditer(text, command.end(), end))


def refreshed(text: str) -> str:
    """A README with its excerpts and exit codes as they are now."""
    pieces, at = [], 0
    for command, blocks in commands(text):
        shown = printed(command["command"])
        pieces += [text[at : command.start("code")], str(shown.code)]
        at = command.end("code")
        for block in blocks:
            new = excerpt(shown.text, block["section"], block["lines"])
            pieces += [text[at : block.start("text")], new]
            at = block.end("text")
    return "".join([*pieces, text[at:]])


if __name__ == "__main__":
    for each in readmes():
        each.write_text(refreshed(each.read_text(encoding="utf-8")), encoding="utf-8")
