"""Many designs of one line looked at together, against each design, load and form by itself."""

import numpy as np
import pytest

from strength.joints.bounds import may_govern, parts_between
from strength.joints.circle import is_circle
from strength.joints.contest import ALONE, Contest
from strength.joints.forms import Forms, form_at
from strength.joints.peak import Peak, peaks
from strength.joints.pieces import Pieces, split_at
from strength.joints.saddle import Cylinder
from strength.joints.samples import framed
from strength.joints.traction import Pull, pull
from strength.joints.weighed import weighed
from strength.joints.weld_line import WeldLine, measured
from tests.joints.bench import weld
from tests.joints.lines import around, line, outline, round_line, saddle, together

DESIGNS, LOADS = 13, 7
SIZES = np.array([1.0, 0.8, 0.5, 21.0, 17.0, 12.0])
PLAIN = [(1, 1, 1, 0), (3, 3, 1, 0), (1, 3, 3, 0), (0.4, 1.2, 0, 0), (3, 0, 0, 0)]
MIXED = [(2, 3, 2, 2), (2, 3, 2, -2), (0.5, 0, 0.5, 1), (0.5, 0, 0.5, -1)]


def box_on_tube(depth: float, width: float) -> WeldLine:
    """A box on a slanting tube beside its middle."""
    cylinder = Cylinder(
        through=np.array([[3.0, 1.0, -2.0]]),
        direction=np.array([[0.36, 0.48, 0.8]]),
        radius=np.array([24.0]),
        into=np.array([-1.0]),
    )
    pieces: Pieces = split_at(outline("Box", depth, width), cylinder.turned)
    return measured(pieces, cylinder, cylinder.reach(pieces))


LINES = {
    "circles": together(round_line(33.0), round_line(21.0)),
    "saddles": together(saddle(25.0, 40.0, 71.0), saddle(22.0, 47.0, 58.0, aside=2.0)),
    "steep saddle": saddle(30.0, 30.3, 82.0),
    "boxes on tubes": together(box_on_tube(24.0, 16.0), box_on_tube(21.0, 18.0)),
    "box": around("Box", 40.0, 25.0, 2.5),
    "lines": line((3.0, -20.0, 9.0, 31.0), (-14.0, 8.0, -2.0, -25.0), (5.0, 5.0, 5.0, 5.0)),
}


def case(found: WeldLine, forms: list[tuple[float, ...]], apart: float) -> tuple[Pull, Forms, Contest]:
    """Forces of designs so far apart, of loads much alike in size, and scales that go with the design."""
    rng = np.random.default_rng(int(1e3 * apart) + len(forms))
    rows = found.length.size
    middle = rng.normal(size=(rows, 1, LOADS, 6)) * rng.uniform(0.6, 1.0, (rows, 1, LOADS, 1))
    load = (middle + apart * rng.normal(size=(rows, DESIGNS, LOADS, 6))) * SIZES
    load[0, :, 3] = 0.0
    if apart > 0.1:
        load[-1, 4] = 0.0
    scales = rng.uniform(0.5, 2.0, (rows, 1, len(forms))) * rng.uniform(1.0, 1.0 + apart, (rows, DESIGNS, 1))
    scales[:, :, -1] *= 1.0 + 0.3 * apart * rng.uniform(size=(rows, DESIGNS))
    welds = [weld() for _ in range(rows)]
    through = pull(found, load.reshape(rows, -1, 6), welds, tuple(map(str, range(LOADS))))
    pieces = found.pieces.span.size
    every = np.broadcast_to(np.array(forms, dtype=float)[None, :, None], (1, len(forms), pieces, 4)).copy()
    if not is_circle(found):
        every[:, 1, ::2] *= 0.8  # a form that is lower on some pieces
    factor = rng.uniform(0.5, 2.0, (1, LOADS))
    return (
        through,
        Forms(forms=every, scales=scales, sizes=1.5 * scales, each=LOADS),
        Contest(rivals=LOADS, factor=factor),
    )


def one_by_one(found: WeldLine, through: Pull, group: Forms) -> Peak:
    """Every form, load and design by itself."""
    return peaks(found, through, [group.by_load()], ALONE)[0]


@pytest.mark.parametrize("found", LINES.values(), ids=LINES)
@pytest.mark.parametrize("forms", [PLAIN, MIXED], ids=["plain", "mixed"])
@pytest.mark.parametrize("apart", [0.0, 1e-9, 1e-3, 0.05, 0.4, 3.0])
def test_worst_load_of_every_design(found: WeldLine, forms: list[tuple[float, ...]], apart: float) -> None:
    """Its height, load, form, force per length and place; no load is told higher than it is."""
    through, group, contest = case(found, forms, apart)
    every = one_by_one(found, through, group)
    few, again = peaks(found, through, [group, group.by_load()], contest)
    shape = (found.length.size, DESIGNS, LOADS)
    factor = np.broadcast_to(contest.factor, shape[1:])
    plain, quick = every.height.reshape(shape) * factor, few.height.reshape(shape) * factor
    assert quick.max(axis=2) == pytest.approx(plain.max(axis=2), rel=1e-12)
    assert np.all(quick <= plain * (1.0 + 1e-12))
    np.testing.assert_array_equal(few.height, again.height)
    load = plain.argmax(axis=2)
    loaded = plain.max(axis=2) > 0.0
    assert np.all(quick.argmax(axis=2)[loaded] == load[loaded])
    assert np.all(loaded) == (apart <= 0.1)
    row, design = np.nonzero(loaded)
    at = row, design * LOADS + load[row, design]
    assert few.value[at] == pytest.approx(every.value[at], rel=1e-12)
    scale, _ = group.of(*at, few.form[at])
    own = form_at(group.forms[0, few.form[at]], *few.parts[at].T[..., None]) * scale[:, None]
    assert np.all(np.isclose(own, few.height[at][:, None], rtol=1e-9).any(axis=1))
    if apart > 0.0:
        assert few.place[at] == pytest.approx(every.place[at], abs=1e-4)


@pytest.mark.parametrize("found", LINES.values(), ids=LINES)
def test_no_force_at_all(found: WeldLine) -> None:
    """No height and no force per length in any design, and places that are told."""
    through, group, contest = case(found, PLAIN, 0.0)
    none = Pull(both=np.zeros(through.both.shape))
    for peak in peaks(found, none, [group, group], contest):
        assert not peak.height.any()
        assert not peak.parts.any()
        assert not peak.value.any()
        assert np.isfinite(peak.place).all()


@pytest.mark.parametrize("found", LINES.values(), ids=LINES)
@pytest.mark.parametrize("forms", [PLAIN, MIXED], ids=["plain", "mixed"])
@pytest.mark.parametrize("apart", [1e-3, 0.4])
def test_what_may_govern_holds_what_does(
    found: WeldLine, forms: list[tuple[float, ...]], apart: float
) -> None:
    """Every form at every place and load worked out: the greatest of each design is among the few left."""
    through, group, contest = case(found, forms, apart)
    rows = found.length.size
    force = np.concatenate([through.direct, through.spin], axis=-1).reshape(rows, DESIGNS, LOADS, 6)
    frames = framed(found, found.per_piece)
    own = weighed([group], contest, rows)
    dead = np.zeros((rows, frames.piece.size), dtype=bool)
    open_ = may_govern(frames, parts_between(frames, force), own, dead, 0.0)
    assert apart > 0.1 or open_.mean() < 0.3
    q = np.einsum("rdli,rcip->crdlp", force, frames.matrix)
    value = form_at(group.forms[:, :, None, None, frames.piece], *q[:, :, None])
    height = value * np.moveaxis(group.scales, 2, 1)[:, :, :, None, None] * contest.factor[0, :, None]
    worst = np.moveaxis(height, 2, 1).reshape(rows, DESIGNS, -1)
    form, load, place = np.unravel_index(worst.argmax(axis=2), (len(forms), LOADS, frames.piece.size))
    for row in range(rows):
        for design in np.flatnonzero(worst[row].max(axis=1) > 0.0):
            at = row, design
            left = np.flatnonzero(own.kept == form[at])
            assert left.size == 1
            assert open_[row, left[0], load[at], place[at]]
