"""Outlines out of drawings: each made here with ezdxf, read back as the corners it was drawn with."""

import math
import sys
from pathlib import Path
from random import Random

import ezdxf
import numpy as np
import pytest
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case import read_case
from strength.case.outline import area
from strength.case.read_as import read_as
from strength.case.rings import join_rings
from strength.case.shape import Outline
from strength.errors import CaseError
from tests.case.cases import BENCH

CORNERS = [(3.0, -2.0), (73.0, -2.0), (73.0, 14.0), (41.0, 20.5), (3.0, 14.0)]
ARM = 'arm = {from = "foot", to = "tip", section = "tube 25 x 2 mm"}'


def drawn(folder: Path, drawing: Drawing, keys: str = "", place: str = "plate.dxf") -> Outline:
    """The arm's outline, the drawing saved beside the case file."""
    drawing.saveas(folder / place)
    return told(folder, f'{{dxf = "{place}"{keys}}}')


def told(folder: Path, section: str) -> Outline:
    """The arm's outline where its section is typed like this."""
    typed = BENCH.replace(
        ARM, f'arm = {{from = "foot", to = "tip", material = "S235JR", section = {section}}}'
    )
    (folder / "case.toml").write_text(typed, encoding="utf-8")
    shape = read_case(folder / "case.toml").members[0].shape
    assert isinstance(shape, Outline)
    return shape


def refused(folder: Path, drawing: Drawing | None, keys: str = "", place: str = "plate.dxf") -> str:
    """What is told about the arm's section."""
    if drawing is not None:
        drawing.saveas(folder / place)
    with pytest.raises(CaseError) as caught:
        told(folder, f'{{dxf = "{place}"{keys}}}')
    ((path, why),) = caught.value.faults
    assert path == "members.arm.section"
    assert why.startswith(f"{place}: ")
    return why


def sheet(units: int = 4) -> Drawing:
    """An empty drawing; 4: in mm, 1: in inches, 6: in metres, 0: not said."""
    drawing = ezdxf.new("R2010")
    drawing.header["$INSUNITS"] = units
    return drawing


def lines(drawing: Drawing, corners: list[tuple[float, float]], order: list[int] | None = None) -> Drawing:
    """A ring of single lines, every second one drawn backward."""
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    for n in order or range(len(sides)):
        start, end = sides[n][:: -1 if n % 2 else 1]
        drawing.modelspace().add_line(start, end)
    return drawing


def same_ring(one: object, other: object) -> bool:
    """Whether two rings have the same corners, from wherever and whichever way round."""
    a, b = np.array(one), np.array(other)
    ways = (np.roll(way, n, axis=0) for way in (b, b[::-1]) for n in range(len(b)))
    return a.shape == b.shape and any(np.allclose(a, way, atol=1e-9) for way in ways)


def test_polyline(tmp_path: Path) -> None:
    """Drawing x is across `up`, drawing y along it."""
    drawing = sheet()
    drawing.modelspace().add_lwpolyline(CORNERS, close=True)
    shape = drawn(tmp_path, drawing)
    assert same_ring(shape.corners, CORNERS)
    assert shape.holes == ()


def test_lines_in_any_order(tmp_path: Path) -> None:
    """Lines drawn in disorder, some twice, join to the same ring."""
    drawing = lines(lines(sheet(), CORNERS, [3, 0, 4, 2, 1]), CORNERS, [2])
    assert same_ring(drawn(tmp_path, drawing).corners, CORNERS)


def test_holes_and_arcs(tmp_path: Path) -> None:
    """A slot of two lines and two arcs with a round hole: areas in closed form, to what chords cut off."""
    drawing = sheet()
    space = drawing.modelspace()
    space.add_line((0, -9), (52, -9))
    space.add_arc((52, 0), 9, 270, 90)
    space.add_line((52, 9), (0, 9))
    space.add_arc((0, 0), 9, 90, 270)
    space.add_circle((11, 1.5), 4)
    space.add_text("18 mm wide").set_placement((10, 30))
    shape = drawn(tmp_path, drawing)
    assert abs(area(shape.corners)) == pytest.approx(52 * 18 + math.pi * 81, rel=1e-3)
    (hole,) = shape.holes
    assert abs(area(hole)) == pytest.approx(math.pi * 16, rel=5e-3)
    assert np.mean(hole, axis=0) == pytest.approx([11, 1.5], abs=1e-6)


def test_bulges(tmp_path: Path) -> None:
    """A polyline with a half circle: bulge 1, the DXF reference's tangent of a quarter of the angle."""
    drawing = sheet()
    drawing.modelspace().add_lwpolyline(
        [(0, 0, 0), (40, 0, 1), (40, 24, 0), (0, 24, 0)], format="xyb", close=True
    )
    assert abs(area(drawn(tmp_path, drawing).corners)) == pytest.approx(40 * 24 + math.pi * 72, rel=1e-3)


def test_blocks_are_opened(tmp_path: Path) -> None:
    """A block put in twice its size and turned a quarter."""
    drawing = sheet()
    block = drawing.blocks.new("plate")
    block.add_lwpolyline([(0, 0), (7, 0), (7, 2), (0, 2)], close=True)
    drawing.modelspace().add_blockref("plate", (1, 3), dxfattribs={"xscale": 2, "yscale": 2, "rotation": 90})
    wanted = [(1, 3), (1, 17), (-3, 17), (-3, 3)]
    assert same_ring(drawn(tmp_path, drawing).corners, wanted)


@pytest.mark.parametrize(
    ("stated", "typed", "mm"),
    [
        (4, "", 1.0),
        (0, "", 1.0),
        (5, "", 10.0),
        (1, "", 25.4),
        (6, "", 1.0),  # 70 metres wide: the header was left as it came
        (4, ', unit = "in"', 25.4),
        (1, ', unit = "mm"', 1.0),
    ],
)
def test_units(tmp_path: Path, stated: int, typed: str, mm: float) -> None:
    """What the file says, unless the user says otherwise."""
    shape = drawn(tmp_path, lines(sheet(stated), CORNERS), typed)
    assert same_ring(shape.corners, [(mm * y, mm * z) for y, z in CORNERS])


def test_a_drawing_in_metres(tmp_path: Path) -> None:
    """Metres that make a part of a vehicle are metres."""
    shape = drawn(tmp_path, lines(sheet(6), [(0.001 * y, 0.001 * z) for y, z in CORNERS]))
    assert same_ring(shape.corners, CORNERS)


def test_layers(tmp_path: Path) -> None:
    """Layers switched off are not read; a named layer is read alone."""
    drawing = lines(sheet(), CORNERS)
    frame = [(-50.0, -50.0), (150.0, -50.0), (150.0, 90.0), (-50.0, 90.0)]
    drawing.layers.add("border").off()
    drawing.layers.add("cut")
    drawing.modelspace().add_lwpolyline(frame, close=True, dxfattribs={"layer": "border"})
    drawing.modelspace().add_circle((30, 5), 3, dxfattribs={"layer": "cut"})
    shape = drawn(tmp_path, drawing)
    assert same_ring(shape.corners, CORNERS)
    assert len(shape.holes) == 1
    assert same_ring(drawn(tmp_path, drawing, ', layer = "border"').corners, frame)
    assert "has no layer 'cuts'; did you mean 'cut'?" in refused(tmp_path, drawing, ', layer = "cuts"')


def test_path_counts_from_the_case_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Wherever the program runs."""
    (tmp_path / "drawings").mkdir()
    monkeypatch.chdir(Path(tmp_path.anchor))
    shape = drawn(tmp_path, lines(sheet(), CORNERS), place="drawings/plate.dxf")
    assert same_ring(shape.corners, CORNERS)


def test_said_in_words(tmp_path: Path) -> None:
    """The report names the drawing and which way its sides came out."""
    drawn(tmp_path, lines(sheet(), CORNERS))
    texts = [each.text for each in read_as(read_case(tmp_path / "case.toml")) if each.part == "arm"]
    assert len(texts) == 1
    assert "22.5 mm" in texts[0]
    assert "70 mm" in texts[0]
    assert texts[0].endswith("the outline in plate.dxf")


def test_open_outline(tmp_path: Path) -> None:
    """Where it is open, and by how much."""
    drawing = lines(sheet(), CORNERS, [0, 1, 3, 4])
    why = refused(tmp_path, drawing)
    assert "the outline is open: a line ends at " in why
    assert "is 32.7 mm away; close it in the drawing" in why  # hypot(32, 6.5)


def test_crossing_outline(tmp_path: Path) -> None:
    """A bow tie bounds nothing."""
    assert "crosses or touches itself" in refused(
        tmp_path, lines(sheet(), [(0, 0), (40, 30), (40, 0), (0, 22)])
    )


def test_two_outlines(tmp_path: Path) -> None:
    """One drawing, one section."""
    drawing = lines(sheet(), CORNERS)
    drawing.modelspace().add_circle((200, 5), 3)
    assert "hole 0 does not lie inside the outline" in refused(tmp_path, drawing)


def test_lines_that_fork(tmp_path: Path) -> None:
    """A rib drawn into the outline is not followed at random."""
    drawing = lines(sheet(), CORNERS)
    drawing.modelspace().add_line(CORNERS[0], CORNERS[2])
    assert "three lines or more meet at " in refused(tmp_path, drawing)


def test_nothing_drawn(tmp_path: Path) -> None:
    """An empty sheet."""
    assert "holds no closed outline" in refused(tmp_path, sheet())


def test_missing_file(tmp_path: Path) -> None:
    """Its folder is told, and what lies there that is spelt alike."""
    drawn(tmp_path, lines(sheet(), CORNERS), place="knuckle.dxf")
    why = refused(tmp_path, None, place="knuckel.dxf")
    assert f"there is no such file in {tmp_path.resolve()}" in why
    assert why.endswith("did you mean 'knuckle.dxf'?")


def test_missing_reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the optional package: what to install, or what to type instead."""
    sheet().saveas(tmp_path / "plate.dxf")
    monkeypatch.setitem(sys.modules, "ezdxf.filemanagement", None)
    assert "pip install ezdxf, or give the corners as `outline`" in refused(tmp_path, None)


@pytest.mark.parametrize(
    "data", [b"", b"not a drawing\n", b"\x00\x01\x02" * 400, b"  0\nSECTION\n  2\nENTITIES\n  0\n"]
)
def test_not_a_drawing(tmp_path: Path, data: bytes) -> None:
    """One message, never a traceback."""
    (tmp_path / "plate.dxf").write_bytes(data)
    assert refused(tmp_path, None)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(0.2, 1.0), min_size=4, max_size=12),
    st.randoms(use_true_random=False),
)
def test_any_order_gives_the_ring(radii: list[float], random: Random) -> None:
    """A star-shaped ring, its sides shuffled and turned about."""
    corners = [
        (80 * r * math.cos(2 * math.pi * n / len(radii)), 80 * r * math.sin(2 * math.pi * n / len(radii)))
        for n, r in enumerate(radii)
    ]
    sides = [list(side) for side in zip(corners, corners[1:] + corners[:1], strict=True)]
    random.shuffle(sides)
    (ring,) = join_rings([side[:: random.choice((1, -1))] for side in sides])
    assert same_ring(ring, corners)
