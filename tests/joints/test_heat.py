"""Heat-affected lengths: where they begin and end along both parts, by hand."""

import attrs
import numpy as np
import pytest

from strength.case.shape import Bar, Box, Flat, Outline, Tube
from strength.frame.layout import lay_out
from strength.joints.heat import heat_lengths
from tests.joints.bench import PLATE, bench, metal, weld

ALUMINIUM = {"material": "6082-T6", "host_material": "6082-T6"}
TURN = np.array([[0.36, 0.48, -0.8], [-0.8, 0.6, 0.0], [0.48, 0.64, 0.6]])
SOFT = metal("4130-N", yield_=435.0, ultimate=620.0, yield_welded=400.0, ultimate_welded=560.0)


def lengths(shape, *welds, **given):
    """Start and end [mm] of each heat-affected length of the first design, by part."""
    context = bench(shape, [[0.0] * 6], *welds, **given)
    return {
        (one.weld, context.bars.names[one.bar]): (float(one.start[0]), float(one.end[0]), one)
        for one in heat_lengths(context.case, context.layout, context.bars)
    }


@pytest.mark.parametrize(
    ("end", "inset", "process", "wall", "expected"),
    [
        ("from", 50.0, "mig", 3.0, (30.0, 70.0)),
        ("from", 12.0, "mig", 3.0, (0.0, 32.0)),
        ("to", 50.0, "tig", 3.0, (320.0, 380.0)),
        ("to", 0.0, "mig", 8.0, (370.0, 400.0)),
        ("from", 100.0, "stick", 3.0, (60.0, 140.0)),
    ],
)
def test_on_the_welded_part(end, inset, process, wall, expected):
    """From the weld's plane b to either side, clipped to a part of 400 mm."""
    given = weld(end=end, inset=inset, process=process, filler="5356")
    start, stop, one = lengths(Tube(50.0, wall), given, material="6082-T6")["seam", "leg"]
    assert (start, stop) == pytest.approx(expected)
    assert one.factor == (0.8 if process == "tig" else 1.0)
    assert bool(one.in_range[0]) is (process != "stick")


def test_bars_go_by_their_diameter():
    """14 mm of aluminium bar: 35 mm for MIG; TIG is out of range with 40 mm."""
    for process, b, known in (("mig", 35.0, True), ("tig", 40.0, False)):
        start, stop, one = lengths(
            Bar(14.0), weld(inset=80.0, process=process, filler="5356"), material="6082-T6"
        )["seam", "leg"]
        assert (start, stop) == pytest.approx((80.0 - b, 80.0 + b))
        assert bool(one.in_range[0]) is known


def test_other_metals_only_where_welding_takes_strength_away():
    """25 mm on a steel that loses some, nothing on S235; each part by its own metal."""
    found = lengths(
        Flat(40.0, 5.0),
        weld(onto="host", inset=20.0),
        material="4130-N",
        metals={"4130-N": SOFT},
        host=Box(60.0, 40.0, 3.0),
    )
    assert list(found) == [("seam", "leg")]
    assert found["seam", "leg"][:2] == pytest.approx((0.0, 45.0))
    assert lengths(Flat(40.0, 5.0), weld(onto=PLATE)) == {}


def test_no_tig_factor_on_the_users_own_metal():
    """Who gives welded values gives them for his process."""
    own = metal("mine", "aluminium", series="6xxx", own=True, yield_=200.0, yield_welded=90.0)
    _, _, one = lengths(
        Tube(30.0, 3.0), weld(process="tig", filler="5356"), material="mine", metals={"mine": own}
    )["seam", "leg"]
    assert one.factor == 1.0


def joint(shape, host, lean=0.0, width=None, inset=24.0, **given):
    """Both parts of aluminium; `leg` leaves the host 250 mm along it, at 90 degrees less `lean`."""
    angle = np.radians(lean)
    along = np.cos(angle) * TURN[2] + np.sin(angle) * TURN[0]
    return lengths(
        shape,
        weld(onto="host", inset=inset, filler="5356", **given),
        host=host,
        host_direction=TURN[0],
        along=along,
        up=tuple(TURN[0]) if width is None else width,
        **ALUMINIUM,
    )


def test_square_saddle_counts_from_its_extent_on_both_parts():
    """25 on 48: from sqrt(24^2 - 12.5^2) to 24 along the tube, 250 -+ 12.5 along the host; b = 20."""
    found = joint(Tube(25.0, 2.0), Tube(48.0, 3.0))
    start, stop, _ = found["seam", "leg"]
    assert start == pytest.approx(np.sqrt(24.0**2 - 12.5**2) - 20.0, abs=1e-6)
    assert stop == pytest.approx(44.0, abs=1e-6)
    assert found["seam", "host"][:2] == pytest.approx((250.0 - 32.5, 250.0 + 32.5), abs=1e-6)


def test_leaning_saddle():
    """At 90 - 40 degrees: up to (R + r cos)/sin along the tube, d/sin wide along the host."""
    found = joint(Tube(25.0, 2.0), Tube(48.0, 3.0), lean=40.0)
    sine, cosine = np.sin(np.radians(50.0)), np.cos(np.radians(50.0))
    _, stop, _ = found["seam", "leg"]
    assert stop == pytest.approx((24.0 + 12.5 * cosine) / sine + 20.0, abs=1e-6)
    start, stop, _ = found["seam", "host"]
    middle = 250.0 + 24.0 * cosine / sine
    assert (start, stop) == pytest.approx(
        (middle - 12.5 / sine - 20.0, middle + 12.5 / sine + 20.0), abs=1e-6
    )


def test_footprint_on_a_flat_face():
    """A flat 50 along a box: 25 each way; leaning by 30 degrees 25/cos(30) about where it meets the face."""
    found = joint(Flat(50.0, 6.0), Box(40.0, 40.0, 3.0), pattern="sides", inset=20.0)
    assert found["seam", "host"][:2] == pytest.approx((250.0 - 45.0, 250.0 + 45.0), abs=1e-6)
    assert found["seam", "leg"][:2] == pytest.approx((0.0, 40.0))
    inset = 20.0 / np.cos(np.radians(30.0))
    found = joint(Flat(50.0, 6.0), Box(40.0, 40.0, 3.0), lean=30.0, pattern="sides", inset=inset)
    middle, half = 250.0 + 20.0 * np.tan(np.radians(30.0)), 25.0 / np.cos(np.radians(30.0))
    assert found["seam", "host"][:2] == pytest.approx((middle - half - 20.0, middle + half + 20.0), abs=1e-6)


def test_near_the_end_of_the_host_it_is_clipped():
    """A host that ends 600 mm on: nothing beyond it, nothing before its `from`."""
    context = bench(
        Tube(25.0, 2.0), [[0.0] * 6], weld(onto="host", filler="5356"), host=Tube(700.0, 8.0), along=TURN[2],
        host_direction=TURN[0], **ALUMINIUM,
    )  # fmt: skip
    point = attrs.evolve(
        context.case.points[2], at=tuple(np.array(context.case.points[0].at) - 9.0 * TURN[0])
    )
    case = attrs.evolve(context.case, points=(*context.case.points[:2], point, *context.case.points[3:]))
    layout = lay_out(case)
    (host,) = [
        one for one in heat_lengths(case, layout, context.bars) if context.bars.names[one.bar] == "host"
    ]
    assert (host.start[0], host.end[0]) == pytest.approx((0.0, 9.0 + 12.5 + 30.0), abs=1e-6)


def test_an_outline_has_the_widest_length():
    """It has no one wall to go by."""
    angle = Outline(corners=((0.0, 0.0), (40.0, 0.0), (40.0, 4.0), (4.0, 4.0), (4.0, 40.0), (0.0, 40.0)))
    context = bench(Tube(25.0, 2.0), [[0.0] * 6], weld(inset=100.0, filler="5356"), material="6082-T6")
    bars = attrs.evolve(context.bars, shapes=(angle,), wall=np.array([[np.nan]]))
    (one,) = heat_lengths(context.case, context.layout, bars)
    assert (one.start[0], one.end[0]) == pytest.approx((60.0, 140.0))


def test_every_design_has_its_own_width():
    """Walls of 3, 8 and 20 mm at once: 20, 30, 35 mm."""
    context = bench(Tube(90.0, 3.0), [[0.0] * 6], weld(inset=100.0, filler="5356"), material="6082-T6")
    three = {
        field.name: np.repeat(getattr(context.bars, field.name), 3, axis=0)
        for field in attrs.fields(type(context.bars))
        if getattr(getattr(context.bars, field.name), "ndim", 0) == 2
    }
    bars = attrs.evolve(context.bars, **(three | {"wall": np.array([[3.0], [8.0], [20.0]])}))
    (one,) = heat_lengths(context.case, context.layout, bars)
    assert one.start == pytest.approx([80.0, 70.0, 65.0])
    assert one.end == pytest.approx([120.0, 130.0, 135.0])
