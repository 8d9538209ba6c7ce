"""Rows of the library's tables, one function a kind: plain dicts, None where a value is not known."""

from collections.abc import Sequence
from math import inf
from pathlib import Path
from typing import Any

from strength.library import data
from strength.library.bolt import bolt_class_names, bolt_class_rows
from strength.library.fatigue import fatigue_names
from strength.library.filler import Filler
from strength.library.fillers import filler_names, find_filler
from strength.library.metal import Metal, Strength
from strength.library.metals import find_metal, metal_names, textbook_names
from strength.library.personal import personal_fillers, personal_metals
from strength.library.screws import rod_end_names, rod_end_rating, shoulder_screw, shoulder_screw_names
from strength.library.sizes import StockSize
from strength.library.threads import thread, thread_names
from strength.library.tolerance import wall_rules

Row = dict[str, Any]


def span(over: float, up_to: float) -> str:
    """A range as a builder reads it: "3 to 16", "to 16", "over 16", "over 0"."""
    low, high = f"{over:g}", f"{up_to:g}"
    if up_to == inf:
        return f"over {low}"
    return f"{low} to {high}" if over else f"to {high}"


def metals(personal: Path | None = None, *, textbook: bool = False) -> list[Row]:
    """A row per metal and range of thickness, the user's own first; textbook: books' metals too."""
    own = personal_metals(personal)
    listed = (*metal_names(), *(textbook_names() if textbook else ()))
    every = [*own.values(), *(find_metal(name, extra=own) for name in listed if name not in own)]
    return [_metal(metal, row) for metal in every for row in metal.rows]


def _metal(metal: Metal, row: Strength) -> Row:
    thickness = span(row.over, row.up_to)
    if row.diameter_to < inf:
        thickness += f", of tube to {row.diameter_to:g}"
    sure = [row.sure]
    if row.sure_welded != row.sure and row.yield_welded is not None:
        sure.append(f"at weld {row.sure_welded}")
    if row.sure_elongation != row.sure and row.elongation is not None:
        sure.append(f"elongation {row.sure_elongation}")
    return {
        "name": metal.name,
        "also": ", ".join(metal.also),
        "kind": metal.kind,
        "form": metal.form,
        "standard": metal.standard,
        "thickness": thickness,
        "yield": row.yield_,
        "ultimate": row.ultimate,
        "elongation": None if row.elongation is None else round(100 * row.elongation, 1),
        "yield_welded": row.yield_welded,
        "ultimate_welded": row.ultimate_welded,
        "weldable": "yes" if metal.weldable else "no",
        "curve": metal.buckling_curve,
        "carbon_equivalent": metal.carbon_equivalent,
        "own": metal.own,
        "source": _keys(row.source, row.source_welded if row.yield_welded is not None else ""),
        "sure": ", ".join(sure),
        "note": metal.note,
    }


def _keys(*keys: str) -> str:
    return ", ".join(dict.fromkeys(key for key in keys if key))


def fillers(personal: Path | None = None) -> list[Row]:
    """A row per filler, the user's own first."""
    own = personal_fillers(personal)
    every = [*own.values(), *(find_filler(name, extra=own) for name in filler_names() if name not in own)]
    return [_filler(filler) for filler in every]


def _filler(filler: Filler) -> Row:
    return {
        "name": filler.name,
        "also": ", ".join(filler.also),
        "kind": filler.kind,
        "strength": filler.strength,
        "by_parent": ", ".join(f"{parent} {fw:g}" for parent, fw in filler.by_parent.items()),
        "suits": ", ".join(filler.suits),
        "own": filler.own,
        "source": filler.source,
        "sure": filler.sure,
        "note": filler.note,
    }


def bolts() -> list[Row]:
    """A row per property class and range of diameter."""
    return [
        {
            "name": one.name,
            "diameter": span(one.over, one.up_to),
            "ultimate": one.ultimate,
            "yield": one.yield_,
            "ultimate_min": one.ultimate_min,
            "yield_min": one.yield_min,
            "proof": one.proof,
            "elongation": None if one.elongation is None else round(100 * one.elongation, 1),
            "source": one.source,
            "sure": one.sure,
            "note": one.note,
        }
        for name in bolt_class_names()
        for one in bolt_class_rows(name)
    ]


def threads() -> list[Row]:
    """A row per thread; the tapping drill is size less pitch (common practice)."""
    every = [thread(name) for name in thread_names()]
    return [
        {
            "name": one.name,
            "pitch": one.pitch,
            "root": round(one.root, 3),
            "stress_area": round(one.stress_area, 1),
            "drill": round(one.diameter - one.pitch, 2),
            "hole_fine": one.hole_fine,
            "hole_medium": one.hole_medium,
            "flats": one.flats,
            "strip_nut": round(one.strip_nut, 2),
            "strip_bolt": round(one.strip_bolt, 2),
            "torque": one.torque.get("8.8"),
            "source": _keys(*one.sources, "iso965-1"),
            "sure": "computed from memory",
        }
        for one in every
    ]


def screws() -> list[Row]:
    """A row per shoulder screw."""
    return [
        {
            "name": one.name,
            "thread": one.thread,
            "f9": f"{one.f9_max:g} / {one.f9_min:g}",
            "h8": f"{one.shoulder:g} / {one.h8_min:g}",
            "neck": one.neck,
            "thread_length": one.thread_length,
            "head": f"{one.head_diameter:g} x {one.head_height:g}",
            "key": one.key,
            "torque": one.torque,
            "source": one.source,
            "sure": one.sure,
        }
        for one in map(shoulder_screw, shoulder_screw_names())
    ]


def rod_ends() -> list[Row]:
    """A row per rod end size."""
    return [
        {
            "name": one.size,
            "radial": one.radial,
            "axial": one.axial,
            "source": one.source,
            "sure": one.sure,
            "note": one.note,
        }
        for one in map(rod_end_rating, rod_end_names())
    ]


def details() -> list[Row]:
    """A row per detail: its classes by metal and standard, and the first slope."""
    rows = []
    for name in fatigue_names():
        _, table = data.read("detail", name)
        _, curve = data.read("curve", table.get("curve") or table["curve_en"])
        rows.append(
            {
                "name": name,
                "steel": table.get("steel"),
                "aluminium": table.get("aluminium"),
                "en1993": table.get("en1993"),
                "slope": curve["slope"],
                "source": table["source"],
                "sure": table["sure"],
                "note": table.get("note", ""),
            }
        )
    return rows


def walls() -> list[Row]:
    """A row per tube standard and range of wall."""
    rows = []
    for name in wall_rules():
        _, table = data.read("wall", name)
        for row in table["rows"]:
            parts = [f"{row['percent']:g} %"] if row["percent"] else []
            parts += [f"{row['least']:g} mm"] if row["least"] else []
            most = f", at most {row['most']:g} mm" if "most" in row else ""
            rows.append(
                {
                    "name": name,
                    "wall": span(row.get("from", 0.0), row.get("up_to", inf)),
                    "minus": ", at least ".join(parts) + most,
                    "source": table["source"],
                    "sure": table["sure"],
                    "note": table.get("note", ""),
                }
            )
    return rows


def constants(*, textbook: bool = False) -> list[Row]:
    """A row per kind of metal: moduli and density; textbook: those of books' metals too."""
    rows = []
    for name in data.names("constants") if textbook else data.sold("constants"):
        _, table = data.read("constants", name)
        rows.append({"name": name, "note": "", **table})
    return rows


def sizes(name: str, every: Sequence[StockSize], metal: Metal | None) -> list[Row]:
    """A row per size of one list.

    Mass [kg per m, of a flat kg per m^2] in the metal asked for, else in the list's usual kind.
    """
    _, table = data.read("stock", name)
    usual = find_metal(_USUAL[table["kinds"][0]] if table["kinds"] else "S235JR")
    density = (metal or usual).density
    return [
        {
            "name": one.text,
            "size": one.text,
            "shape": one.shape,
            "mass": round(one.mass(density), 3),
            "area": None if one.shape == "flat" else round(one.area, 1),
            "dimensions": list(one.dimensions),
            "list": one.stock,
            "standard": one.standard,
            "source": one.source,
            "sure": one.sure,
            "note": one.note,
        }
        for one in every
        if one.stock == name
    ]


_USUAL = {"steel": "S235JR", "aluminium": "6082-T6", "stainless": "1.4301"}
