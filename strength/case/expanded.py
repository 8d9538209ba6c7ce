"""A case written out part by part: trade parts, defaults and mirrored sides as plain entries.

Reading the text gives the same parts to the last bit; writing that out again, the same bytes.
"""

import tomllib
from collections.abc import Iterator
from typing import Any

from strength.case.kinds import PLURALS
from strength.case.lines import LINES
from strength.case.model import Assumed, Case
from strength.case.places import other_side
from strength.case.writing import amount, anything, array, figure, key, quoted, table, truth
from strength.library import Filler, Metal, Strength

HEADER = "# Every part on a line of its own, figures exact, in mm, N, N*mm, MPa, kg and rad."


def expand_text(case: Case, source: str = "") -> str:
    """The case as plain entries, a line a part, each telling what made it.

    source: the text the case was read from. It names trade parts written as blocks, and where it was
    written by this function its remarks are kept.
    """
    remarks = _Remarks(case, source)
    lines = [HEADER, *_head(case)]
    for plural, write in LINES.items():
        parts = getattr(case, plural)
        if parts:
            lines += ["", f"[{plural}]"]
        for part in parts:
            written = write(part)
            text = written if isinstance(written, str) else table(written)
            known = (
                () if isinstance(written, str) else tuple(word for word, value in written.items() if value)
            )
            remark = remarks.of(plural, part.name, part.path, known)
            lines.append(f"{key(part.name)} = {text}" + (f"  # {remark}" if remark else ""))
    return "\n".join([*lines, *_road(case), *_own(case)]) + "\n"


def _head(case: Case) -> Iterator[str]:
    """What stands before the parts."""
    yield f"title = {quoted(case.title)}"
    if case.notes:
        yield f"notes = {quoted(case.notes)}"
    yield from ("", "[display]", f"units = {quoted(case.units)}", "", "[basis]")
    yield f"method = {quoted(case.basis.method)}"
    for factor, values in case.basis.factors.items():
        kinds = zip(("routine", "hard", "abuse"), values, strict=True)
        yield f"{factor} = " + table({kind: None if value is None else repr(value) for kind, value in kinds})
    yield f"shear_flexible = {truth(case.basis.shear_flexible)}"
    yield f"wall = {quoted(case.basis.wall)}"
    if case.leaning:
        yield from ("", "[vehicle]", f"leaning = {amount(case.leaning, 'rad')}")
    if case.spread:
        yield from (
            "",
            "[spread]",
            *(f"{key(word)} = {anything(each)}" for word, each in case.spread.items()),
        )


def _road(case: Case) -> Iterator[str]:
    if case.road is None:
        return
    yield from ("", "[road]", f"distance = {amount(case.road.distance, 'km')}")
    for block in case.road.blocks:
        yield from ("", "[[road.block]]", f"from = {quoted(block.start)}", f"to = {quoted(block.end)}")
        yield f"per_km = {block.per_km!r}"


def _own(case: Case) -> Iterator[str]:
    """Metals and fillers of the user's own, under the names they are asked by."""
    for name, metal in case.metals.items():
        if metal.own:
            yield from ("", f"[material.{key(name)}]", *_metal(metal))
    for name, filler in case.fillers.items():
        if filler.own:
            yield from ("", f"[filler.{key(name)}]", *_filler(filler))


def _metal(metal: Metal) -> Iterator[str]:
    yield f"kind = {quoted(metal.kind)}"
    yield f"modulus = {amount(metal.modulus, 'MPa')}"
    yield f"poisson = {metal.poisson!r}"
    yield f"shear_modulus = {amount(metal.shear_modulus, 'MPa')}"
    yield f"density = {amount(metal.density, 'kg/mm^3')}"
    yield f"weldable = {truth(metal.weldable)}"
    yield f"buckling_curve = {quoted(metal.buckling_curve)}"
    if len(metal.rows) == 1 and not _limits(metal.rows[0]):
        yield from (f"{word} = {text}" for word, text in _strengths(metal.rows[0]).items())
    else:
        yield "rows = " + array(table({**_limits(row), **_strengths(row)}) for row in metal.rows)
    source = metal.rows[0].source if metal.rows else ""
    for word, text in (("source", source), ("note", metal.note)):
        if text:
            yield f"{word} = {quoted(text)}"


def _strengths(row: Strength) -> dict[str, str]:
    values = {
        "yield": row.yield_,
        "ultimate": row.ultimate,
        "yield_welded": row.yield_welded,
        "ultimate_welded": row.ultimate_welded,
    }
    found = {word: amount(value, "MPa") for word, value in values.items() if value is not None}
    if row.elongation is not None:
        found["elongation"] = repr(row.elongation)
    return found


def _limits(row: Strength) -> dict[str, str]:
    limits = {"over": row.over, "up_to": row.up_to, "diameter_to": row.diameter_to}
    return {
        word: quoted(f"{figure(value)} mm") for word, value in limits.items() if 0.0 < value < float("inf")
    }


def _filler(filler: Filler) -> Iterator[str]:
    yield f"kind = {quoted(filler.kind)}"
    yield f"strength = {amount(filler.strength, 'MPa')}"
    for word, text in (("source", filler.source), ("note", filler.note)):
        if text:
            yield f"{word} = {quoted(text)}"


class _Remarks:
    """What stands behind a line: which part made it, which of its values were assumed."""

    def __init__(self, case: Case, source: str) -> None:
        self._kept = _remarks_in(source) if source.startswith(HEADER) else None
        self._blocks = {} if self._kept is not None else _block_names(source)
        self._assumed: dict[str, list[Assumed]] = {}
        for each in case.assumed:
            self._assumed.setdefault(each.part, []).append(each)

    def of(self, plural: str, name: str, path: str, keys: tuple[str, ...]) -> str:
        """The remark of a line, empty where there is nothing to tell."""
        if self._kept is not None:
            return self._kept.get((plural, name), "")
        taken = [*self._assumed.get(name, ()), *self._assumed.get(other_side(name), ())]
        assumed = dict.fromkeys(each.key for each in taken if each.key in keys)
        told = [self._maker(plural, name, path)]
        if assumed:
            told.append("assumed: " + ", ".join(assumed))
        return "; ".join(text for text in told if text)

    def _maker(self, plural: str, name: str, path: str) -> str:
        """Which part made a line, and whether on the other side."""
        table_name, _, made = path.partition(".")
        kind = PLURALS[table_name].word if table_name in PLURALS else ""
        if path in self._blocks:
            kind, made = self._blocks[path]
        mirrored = name.endswith(".right") and not made.endswith(".right")
        if not kind or (kind == PLURALS[plural].word and made == name):
            return ""
        if kind == PLURALS[plural].word and made == other_side(name):
            return "mirrored"
        return f"{kind} {made}" + (", mirrored" if mirrored else "")


def _block_names(source: str) -> dict[str, tuple[str, str]]:
    """Kind and name of each part written as a block, by its path."""
    try:
        file: dict[str, Any] = tomllib.loads(source)
    except ValueError:
        return {}
    return {
        f"{kind}[{i}]": (kind, str(block.get("name", "")))
        for kind, blocks in file.items()
        if isinstance(blocks, list)
        for i, block in enumerate(blocks)
        if isinstance(block, dict)
    }


def _remarks_in(source: str) -> dict[tuple[str, str], str]:
    """The remarks of a text that `expand_text` wrote, by plural and name."""
    found = {}
    plural = ""
    for line in source.splitlines():
        if line.startswith("["):
            plural = line.strip("[]")
            continue
        plain, remark = _split(line)
        if plural in LINES and remark and plain:
            found[plural, next(iter(tomllib.loads(plain)))] = remark
    return found


def _split(line: str) -> tuple[str, str]:
    """A line without its remark, and the remark; signs in quotes do not begin one."""
    inside = escaped = False
    for i, sign in enumerate(line):
        if escaped:
            escaped = False
        elif sign == "\\":
            escaped = inside
        elif sign == '"':
            inside = not inside
        elif sign == "#" and not inside:
            return line[:i].rstrip(), line[i + 1 :].strip()
    return line, ""
