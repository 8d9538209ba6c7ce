"""An outline out of a drawing in DXF, the open format of cutting shops. ezdxf is imported here only."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from strength.case.faults import RefusedError, nearest
from strength.case.outline import area, check_outline
from strength.case.rings import join_rings
from strength.case.shape import Outline

if TYPE_CHECKING:
    from ezdxf.document import Drawing

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
INSUNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}  # header variable $INSUNITS, DXF reference
WIDEST = 1000.0  # mm: a drawing in metres or feet wider than that was drawn in mm (own choice)
SAGITTA = 0.01  # mm between an arc and its chords (own choice)
LARGEST = 20_000_000  # bytes
LINES = ("LINE", "LWPOLYLINE", "POLYLINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE")
DEEPEST = 5  # blocks within blocks


def read_drawing(folder: str | Path, file: str, *, unit: str = "", layer: str = "") -> Outline:
    """The outline in a drawing: its x along y_m, its y along z_m; the largest ring holds the others.

    file: counted from `folder`, that of the case file. unit: of the drawing; left out, what its header says,
    and mm where it says nothing, or says metres or feet of something over a metre wide (own choice: headers
    are often left as they came). layer: only what is drawn on it; left out, all that is not switched off.
    Raises RefusedError where the file, the reader or a closed outline is missing.
    """
    try:
        drawing = _load(folder, file)
        paths = _paths(drawing, layer)
        scale = UNITS[unit] if unit else _scale(drawing, paths)
        scaled = [_corners(path, scale) for path in paths]
        rings = sorted(
            join_rings([corners for corners in scaled if len(corners) > 1]), key=lambda ring: -abs(area(ring))
        )
        outline = Outline(rings[0], tuple(rings[1:]), drawn=file)
        check_outline(outline)
    except RefusedError as error:
        raise RefusedError(f"{file}: {error.why}") from None
    return outline


def _load(folder: str | Path, file: str) -> "Drawing":
    place = Path(folder) / file
    try:
        there = place.is_file()
        others = [] if there else sorted(each.name for each in place.parent.glob("*.dxf"))
        long = there and place.stat().st_size > LARGEST
    except (OSError, ValueError) as error:
        raise RefusedError(f"cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if not there:
        hint = nearest(place.name, others) if others else ""
        raise RefusedError(
            f"there is no such file in {place.parent.resolve()}, counted from the case file{hint}"
        )
    if long:
        raise RefusedError("is far too long for the drawing of one outline")
    try:
        from ezdxf.filemanagement import readfile
    except ImportError:
        raise RefusedError(
            "drawings need the package ezdxf: pip install ezdxf, or give the corners as `outline`"
        ) from None
    try:
        return readfile(place)
    except OSError as error:
        why = error.strerror or "it is not a DXF file"
        raise RefusedError(f"cannot be read as a drawing: {why}; save it as DXF") from None
    except Exception:  # noqa: BLE001  a damaged file can raise nearly anything
        raise RefusedError("is damaged, or no DXF file: save it as DXF once more") from None


def _paths(drawing: "Drawing", layer: str) -> list[Any]:
    """Lines and arcs of the model space, in the drawing's unit."""
    from ezdxf.path import make_path

    off = {each.dxf.name.casefold() for each in drawing.layers if each.is_off() or each.is_frozen()}
    names = {each.dxf.name for each in drawing.layers}
    if layer and layer.casefold() not in {name.casefold() for name in names}:
        raise RefusedError(f"has no layer {layer!r}{nearest(layer, names)}")
    found = []
    for entity in _entities(drawing.modelspace(), 0):
        on = entity.dxf.layer.casefold()
        if on in off if not layer else on != layer.casefold():
            continue
        try:
            path = make_path(entity)
        except (ValueError, TypeError, ArithmeticError):
            raise RefusedError(f"has a {entity.dxftype()} that cannot be followed: redraw it") from None
        if len(path):
            found.append(path)
    return found


def _corners(path: Any, scale: float) -> list[tuple[float, float]]:
    """A line or arc as a chain of corners [mm]."""
    corners = [(scale * point.x, scale * point.y) for point in path.flattening(SAGITTA / scale, segments=4)]
    if path.is_closed and corners[0] != corners[-1]:
        corners.append(corners[0])
    return corners


def _entities(group: Any, depth: int) -> Iterator[Any]:
    for entity in group:
        if entity.dxftype() == "INSERT" and depth < DEEPEST:
            yield from _entities(entity.virtual_entities(), depth + 1)
        elif entity.dxftype() in LINES:
            yield entity


def _scale(drawing: "Drawing", paths: list[Any]) -> float:
    """What one drawing unit is in mm, where the user leaves it to the drawing."""
    scale = UNITS[INSUNITS.get(int(drawing.header.get("$INSUNITS", 0)), "mm")]
    every = [point for path in paths for point in path.control_vertices()]
    spans = [max(values) - min(values) for values in zip(*((p.x, p.y) for p in every), strict=True)]
    return 1.0 if scale > UNITS["in"] and scale * max(spans, default=0.0) > WIDEST else scale
