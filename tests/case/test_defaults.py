"""What parts leave out, and the list of what was taken instead."""

import pytest

from strength.case.model import Assumed
from tests.case.cases import BENCH, TRIKE, faults, read

WELD = "[welds]\nw = {member = 'arm', end = 'from'}\n"


def assumed(text: str) -> dict[tuple[str, str], str]:
    """What a case lists as assumed."""
    listed = read(text).assumed
    found = {(each.part, each.key): each.value for each in listed}
    assert len(found) == len(listed)
    return found


@pytest.mark.parametrize(
    ("section", "metal"),
    [
        ("tube 25 x 2 mm", "E235+N"),
        ("square 30 x 2 mm", "S235JRH"),
        ("box 40 x 30 x 2 mm", "S235JRH"),
        ("flat 40 x 8 mm", "S235JR"),
        ("bar 16 mm", "42CrMo4+QT"),
    ],
)
def test_metals_by_kind_of_section(section, metal):
    """A default for each kind of section; box includes square."""
    text = BENCH.replace("tube 25 x 2 mm", section)
    case = read(text)
    assert case.members[0].material == metal
    assert Assumed(part="arm", key="material", value=metal) in case.assumed
    assert set(case.metals) == {metal}


def test_one_metal_for_all():
    """One name serves every section, outlines too."""
    one = BENCH.replace(
        'material = {tube = "E235+N", box = "S235JRH", flat = "S235JR", bar = "42CrMo4+QT"}',
        'material = "S355J2"',
    )
    outline = "{outline = ['0 0 mm', '30 0 mm', '0 40 mm']}"
    assert read(one).members[0].material == "S355J2"
    assert read(one.replace('"tube 25 x 2 mm"', outline)).members[0].material == "S355J2"
    found = faults(BENCH.replace('"tube 25 x 2 mm"', outline))
    assert found["members.arm"] == ["`material` is missing: which metal is it made of? Name it here"]


def test_given_values_are_not_assumed():
    """What is typed is typed."""
    text = BENCH.replace("section =", 'material = "E355+N", section =') + WELD.replace(
        "end = 'from'", "end = 'from', leg = '4 mm', filler = 'ER70S-6', process = 'stick', quality = 'good'"
    )
    assert read(text).assumed == ()


def test_rigid_parts_have_no_metal():
    """A rigid member has no metal, and none is assumed."""
    case = read(BENCH.replace("tube 25 x 2 mm", "rigid"))
    assert case.members[0].material == ""
    assert case.assumed == ()
    assert case.metals == {}


def test_welds():
    """Filler from the defaults, process and quality the program's own, all listed."""
    found = assumed(BENCH + WELD)
    assert found["w", "filler"] == "ER70S-6"
    assert found["w", "process"] == "mig"
    assert found["w", "quality"] == "ordinary"
    assert found["w", "leg"] == "2 mm"
    stated = BENCH.replace('class = "8.8"', 'process = "tig"\nquality = "poor"\nleg = "3.5 mm"') + WELD
    (weld,) = read(stated).welds
    assert (weld.process, weld.quality, weld.leg, weld.filler) == ("tig", "poor", 3.5, "ER70S-6")
    assert assumed(stated)["w", "leg"] == "3.5 mm"


@pytest.mark.parametrize(
    ("section", "onto", "leg"),
    [
        ("tube 25 x 2 mm", "", 2.0),
        ("tube 25 x 2.1 mm", "", 2.5),
        ("tube 25 x 1.5 mm", "", 1.5),
        ("tube 1 x 0.065 in", "", 2.0),
        ("tube 25 x 4 mm", ", onto = {thickness = '3.2 mm'}", 3.5),
        ("tube 25 x 2 mm", ", onto = {thickness = '3.2 mm'}", 2.0),
        ("flat 40 x 8 mm", ", onto = 'post'", 2.5),
        ("bar 16 mm", ", onto = 'post'", 2.5),
        ("bar 2.2 mm", ", onto = 'post'", 2.5),
    ],
)
def test_leg_left_out(section, onto, leg):
    """The thinnest wall joined, rounded up to half a millimetre."""
    post = "[[member]]\nname = 'post'\nfrom = 'foot'\nto = '0 0 -200 mm'\nsection = 'tube 40 x 2.5 mm'\n"
    text = BENCH.replace("tube 25 x 2 mm", section).replace("42CrMo4+QT", "S355J2") + post
    text += f"[welds]\nw = {{member = 'arm', end = 'from'{onto}}}\n"
    assert read(text).welds[0].leg == leg


def test_leg_that_cannot_be_taken():
    """Where no wall is known the leg is asked for."""
    bare = "{A = '200 mm^2', Iy = '2e4 mm^4', Iz = '1e4 mm^4', J = '3e4 mm^4'}"
    weld = "[welds]\nw = {member = 'arm', end = 'from', pattern = {lines = ['0 9 0 -9 mm']}}\n"
    text = BENCH.replace('"tube 25 x 2 mm"', f"{bare}, material = 'S235JR'") + weld
    assert faults(text)["welds.w"] == ["`leg` is missing: no wall it joins is known to take it from"]


def test_bolts_studs_clamps_sleeves():
    """Classes and the metals of plates."""
    text = BENCH + (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8', plates=["
        "{thickness='5 mm', edge='16 mm', hole='8.4 mm'},"
        "{thickness='4 mm', material='E235+N', edge='16 mm', hole='9 mm'}]}\n"
        "[studs]\ns = {member='arm', end='to', size='M10', reach='20 mm', engaged='15 mm'}\n"
        "[clamps]\nc = {member='arm', end='from', diameter='25 mm', bolts='2 x M6'}\n"
        "[sleeves]\nv = {member='arm', end='from', outer='tube 30 x 2 mm', overlap='60 mm', "
        "bolt={size='M6'}}\n"
    )
    case = read(text)
    assert [plate.material for plate in case.bolts[0].plates] == ["S235JR", "E235+N"]
    assert (case.bolts[0].grade, case.studs[0].grade, case.clamps[0].grade) == ("8.8",) * 3
    assert (case.clamps[0].bolt_count, case.clamps[0].bolt.text, case.clamps[0].friction) == (2, "M6", 0.15)
    assert (case.sleeves[0].grade, case.sleeves[0].bolt.text) == ("8.8", "M6")
    found = assumed(text)
    assert found["b", "plates[0].material"] == "S235JR"
    assert ("b", "plates[1].material") not in found
    assert {key for part, key in found if part in "sbcv"} >= {"class"}
    assert set(case.metals) == {"E235+N", "S235JR"}


@pytest.mark.parametrize(("size", "in_shear"), [("M8", True), ("shoulder 8 mm", False), ("pin 8 mm", False)])
def test_thread_in_shear(size, in_shear):
    """A bolt's thread counts as in the shear plane unless told otherwise; a pin has none."""
    bolt = f"[bolts]\nb = {{member='arm', end='to', axis='0 1 0', size='{size}'}}\n"
    assert read(BENCH + bolt).bolts[0].thread_in_shear is in_shear
    assert read(BENCH + bolt.replace("}", ", thread_in_shear=false}")).bolts[0].thread_in_shear is False


def test_own_metal_and_filler():
    """A metal and a filler of the user's own, used by name."""
    text = BENCH.replace("section =", 'material = "bought-in", section =') + WELD.replace(
        "end =", "filler = 'own', end ="
    )
    text += (
        "[material.bought-in]\nkind='steel'\nmodulus='29 Msi'\npoisson=0.32\ndensity='0.283 lb/in^3'\n"
        "yield='60 ksi'\nultimate='75 ksi'\nweldable=true\nyield_welded='50 ksi'\nultimate_welded='70 ksi'\n"
        "[filler.own]\nkind='steel'\nstrength='70 ksi'\nsource='data sheet'\n"
    ).replace("29 Msi", "200 GPa")
    case = read(text)
    metal = case.metals["bought-in"]
    assert metal.own
    assert metal.beta_w == 1.0
    assert metal.buckling_curve == "c"
    row = metal.strength(2.0)
    assert row.yield_ == pytest.approx(413.685, rel=1e-5)  # 60 ksi, NIST SP 811 B.8: 1 ksi = 6.894757 MPa
    assert row.elongation is None
    assert metal.shear_modulus == pytest.approx(200e3 / 2.64, rel=1e-12)  # E / (2 (1 + nu))
    assert case.fillers["own"].strength == pytest.approx(482.633, rel=1e-5)


def test_a_weldable_metal_tells_its_welded_strength():
    """A metal of the user's own that may be welded without strengths beside the weld is refused."""
    own = (
        "[material.own]\nkind='steel'\nmodulus='200 GPa'\npoisson=0.3\ndensity='7850 kg/m^3'\n"
        "yield='235 MPa'\nultimate='360 MPa'\nweldable=true\n"
    )
    assert set(faults(BENCH + own)) == {"material.own.yield_welded", "material.own.ultimate_welded"}


def test_images_are_listed_once():
    """What a left part and its image took alike is listed with the left one."""
    found = assumed(TRIKE)
    assert ("axle.left", "material") in found
    assert ("axle.right", "material") not in found
