"""A starter case as text: a template a kind, filled in with answers and guessed places."""

from pathlib import Path
from string import Template

from strength.case.starter.answering import Answers
from strength.case.starter.places import FILLINGS

HERE = Path(__file__).parent
SCHEMA_FILE = "strength.schema.json"
FILLERS = {"mig": "ER70S-6", "tig": "ER70S-6", "stick": "E6013", "braze": "silicon bronze"}
LIMIT = 62  # columns: a longer line has its comment right behind it


def starter(answers: Answers) -> str:
    """The case file that a set of answers makes, its first line for editors that know JSON Schema."""
    template = Template((HERE / f"{answers.what}.toml").read_text(encoding="utf-8"))
    texts = {key.replace("-", "_"): answer.text for key, answer in answers.given.items()}
    filled = template.substitute(texts | FILLINGS[answers.what](answers) | _choices(answers))
    lines = [line for line in filled.splitlines() if line != "-"]
    return f"#:schema ./{SCHEMA_FILE}\n" + "\n".join(_aligned(lines)) + "\n"


def _choices(answers: Answers) -> dict[str, object]:
    """Lines that some answers leave out: `-` stands for no line."""
    given = answers.given
    found: dict[str, object] = {"filler": FILLERS[answers.text("process")]}
    if "lean" in given:
        leans = answers.value("lean") > 0.0
        found["vehicle"] = (
            f'\n[vehicle]\nleaning = "{answers.text("lean")}"  # greatest lean, against the end stops'
            if leans
            else "-"
        )
    if "plate-metal" in given:
        metal = answers.value("plate-metal")
        welded = metal.weldable and metal.kind == "steel"
        found["axle_metal"] = "S355J2" if welded else "42CrMo4+QT"
        found["if_welded"], found["if_fitted"] = ("", "- ") if welded else ("- ", "")
    if "cargo" in given:
        found["if_cargo"] = "" if answers.value("cargo") > 0.0 else "- "
    return found


def _aligned(lines: list[str]) -> list[str]:
    """Comments of neighbouring lines set under each other, as far as the lines are short."""
    found: list[str] = []
    block: list[tuple[str, str]] = []
    for line in [*lines, ""]:
        if line.startswith("- "):
            continue
        code, mark, words = line.partition("  # ")
        if line and not line.startswith(("#", "[")):
            block.append((code, words if mark else ""))
            continue
        room = max((len(code) for code, words in block if words and len(code) <= LIMIT), default=0)
        found += [
            f"{code:<{room if len(code) <= LIMIT else 0}}  # {words}" if words else code
            for code, words in block
        ]
        block.clear()
        found.append(line)
    return found[:-1]
