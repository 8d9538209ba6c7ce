"""What a builder gets wrong, one by one: the path, what is wrong and what to do."""

import pytest

from tests.case.cases import BENCH, TRIKE, faults, only_fault, read


def changed(old: str, new: str, base: str = BENCH) -> str:
    """A case with one thing typed otherwise."""
    assert base.count(old) == 1
    return base.replace(old, new)


ARM = 'arm = {from = "foot", to = "tip", section = "tube 25 x 2 mm"}'
FLAT = 'arm = {from = "foot", to = "tip", section = "flat 40 x 8 mm", up = "0 0 1"}'


def with_arm(arm: str, more: str = "") -> str:
    """The bench with another arm, and more below."""
    return changed(ARM, f"arm = {{{arm}}}") + more


def with_flat(more: str) -> str:
    """The bench with an arm cut from a flat."""
    return changed(ARM, FLAT) + more


MEMBERS = [
    ("to = 'tip', section = 'bar 9 mm'", "", "`from` is missing: the place where it begins"),
    ("from = 'foot', to = 'tip'", "", "`section` is missing: what it is cut from, such as 'tube 25 x 2 mm'"),
    ("from = 'foot', to = 'tip', sektion = 'bar 9 mm'", ".sektion", "unknown key; did you mean 'section'?"),
    (
        "from = 'foot', to = 'tpi', section = 'bar 9 mm'",
        ".to",
        "no point, bracket or wishbone is named 'tpi'; did",
    ),
    (
        "from = 'foot', to = 'foot', section = 'bar 9 mm'",
        "",
        "has no length: it begins and ends at the same place",
    ),
    ("from = 'foot', to = '0 0 0.005 mm', section = 'bar 9 mm'", "", "has no length"),
    ("from = 'foot', to = '0 0 mm', section = 'bar 9 mm'", ".to", "has 2 numbers where 3 numbers and a unit"),
    (
        "from = 'foot', to = 3, section = 'bar 9 mm'",
        ".to",
        "3 is not a place: write a point's name or a vector",
    ),
    (
        "from = 'foot', to = 'tip', section = 'tube 25 x 13 mm'",
        ".section",
        "is not under half the diameter (12.5 mm)",
    ),
    ("from = 'foot', to = 'tip', section = 'pipe 25 mm'", ".section", "'pipe 25 mm' is not a section"),
    ("from = 'foot', to = 'tip', section = 25", ".section", "25 is not a text"),
    ("from = 'foot', to = 'tip', section = 'bar 9 mm', up = '0 0 0'", ".up", "'0 0 0' has no direction"),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', up = '0 0 1 mm'",
        ".up",
        "is a direction, three bare numbers",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', up = '300 40 120'",
        ".up",
        "points along the part itself",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', from_end = 'pin'",
        ".from_end",
        "'pin' is not known here: write",
    ),
    ("from = 'foot', to = 'tip', section = 'bar 9 mm', to_end = 'bal'", ".to_end", "did you mean 'ball'?"),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', to_end = 'hinge'",
        "",
        "`hinge_axis` is missing: about which",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', hinge_axis = '0 1 0'",
        ".hinge_axis",
        "there is no hinge: write from_end or to_end",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', only_path = 'yes'",
        ".only_path",
        "neither true nor false",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', buckling_factor = 0",
        ".buckling_factor",
        "0 must be more than 0",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', buckling_factor = true",
        ".buckling_factor",
        "true is not a bare",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', via = ['tip']",
        ".via[0]",
        "'tip' does not lie between its ends",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', via = ['150 20 61 mm']",
        ".via[0]",
        "is 0.93 mm off its line",
    ),
    (
        "from = 'foot', to = 'tip', section = {A = '2 mm^2', Iz = '9 mm^4', J = '4 mm^4'}",
        ".section",
        "`Iy` is missing: the second moment of area",
    ),
    ("from = 'foot', to = 'tip', section = {dxf = 'a.dxf'}", ".section", "a drawing cannot be read here"),
    (
        "from = 'foot', to = 'tip', section = {outline = ['0 0 mm', '9 0 mm']}",
        ".section.outline",
        "has 2 values where at",
    ),
    (
        "from = 'foot', to = 'tip', section = {outline = ['0 0 mm', '9 9 mm', '9 0 mm', '0 5 mm']}",
        ".section",
        "the outline crosses or touches itself between its sides 0 and 2",
    ),
    (
        "from = 'foot', to = 'tip', material = 'S235JR', section = {outline = ['0 0 mm', '9 0 mm', '0 9 mm'],"
        " holes = [['8 8 mm', '7 8 mm', '8 7 mm']]}",
        ".section",
        "hole 0 does not lie inside the outline",
    ),
    (
        "from = 'foot', to = 'tip', section = 'bar 9 mm', material = 'C45N'",
        ".material",
        "nearest are 'C45+N'",
    ),
    ("from = 'foot', to = 'tip', section = 'flat 70 x 400 mm'", ".section", "has no strength for 400 mm"),
]


@pytest.mark.parametrize(("arm", "key", "message"), MEMBERS)
def test_members(arm, key, message):
    """Members: path and message."""
    path, why = only_fault(with_arm(arm.replace("'", '"')))
    assert path == f"members.arm{key}"
    assert message in why


def test_via_out_of_order():
    """Via points are typed from end to end."""
    via = 'via = ["240 32 96 mm", "60 8 24 mm"], '
    path, why = only_fault(changed("section =", via + "section ="))
    assert path == "members.arm.via[1]"
    assert why == "'arm-via-2' comes before 'arm-via-1' along it: put them in order from end to end"


JOINTS = [
    ("[welds]\nw = {member='arm', end='to', inset='326 mm'}", "welds.w.inset", "'arm' is 325.6 mm long"),
    ("[welds]\nw = {member='arm', end='to', inset='-1 mm'}", "welds.w.inset", "must not be less than 0 mm"),
    (
        "[welds]\nw = {member='arm', end='start'}",
        "welds.w.end",
        "'start' is not known here: write one of from, to",
    ),
    (
        "[welds]\nw = {member='ram', end='to'}",
        "welds.w.member",
        "no member is named 'ram'; did you mean 'arm'?",
    ),
    (
        "[welds]\nw = {member='arm', end='to', pattern='sides'}",
        "welds.w.pattern",
        "'arm' is round, it has no sides",
    ),
    ("[welds]\nw = {member='arm', end='to', onto='arm'}", "welds.w.onto", "it is welded onto itself"),
    (
        "[welds]\nw = {member='arm', end='to', onto='amr'}",
        "welds.w.onto",
        "no member is named 'amr'; did you mean",
    ),
    ("[welds]\nw = {member='arm', end='to', filler='ER70S6'}", "welds.w.filler", "nearest are 'ER70S-6'"),
    (
        "[welds]\nw = {member='arm', end='to', filler='ER5356'}",
        "welds.w.filler",
        "ER5356 is a filler for aluminium, but E235",
    ),
    ("[welds]\nw = {member='arm', end='to', process='braze'}", "welds.w.filler", "ER70S-6 is no brazing rod"),
    (
        "[welds]\nw = {member='arm', end='to', process='laser'}",
        "welds.w.process",
        "'laser' is not known here",
    ),
    ("[welds]\nw = {member='arm', end='to', leg='0 mm'}", "welds.w.leg", "must be more than 0 mm"),
    (
        "[welds]\nw = {member='arm', end='to', pattern={lines=['0 1 0 1 mm']}}",
        "welds.w.pattern.lines[0]",
        "without length",
    ),
    (
        "[welds]\nw = {member='arm', end='to', onto={thickness='5 mm', material='6082-T651'}}",
        "welds.w",
        "E235+N cannot be welded to 6082-T651: bolt steel to aluminium",
    ),
    (
        "[welds]\nw = {member='arm', end='to', onto={thickness='5 mm', material='7075-T651'}, filler='ER5356'}",
        "welds.w",
        "the plate it is welded onto is of 7075-T651, which must not be welded",
    ),
    (
        "[struts]\ns = {from='foot', to='tip'}\n[welds]\nw = {member='s', end='to'}",
        "welds.w.member",
        "'s' is a strut, which has no ends to weld",
    ),
    ("[holes]\nh = {member='arm', along=0.5, diameter='6 mm'}", "holes.h.member", "'arm' is no flat"),
    (
        "[shoulders]\ns = {member='arm', end='to', larger='30 mm', fillet='1 mm'}",
        "shoulders.s.member",
        "is no round bar",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', size='M8'}",
        "bolts.b",
        "`axis` is missing: the direction of the bolt",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='8 mm'}",
        "bolts.b.size",
        "'8 mm' is not a size: write 'M10'",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M7'}",
        "bolts.b.size",
        "holds no thread 'M7': nearest are",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8', class='8.9'}",
        "bolts.b.class",
        "nearest are '8.8'",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8', shear_planes=3}",
        "bolts.b.shear_planes",
        "more than 2",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8',"
        " plates=[{thickness='4 mm', edge='15 mm', hole='7.5 mm'}]}",
        "bolts.b.plates[0].hole",
        "a hole of 7.5 mm is smaller than the 8 mm that go through it",
    ),
    (
        "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8', plates=[{thickness='4 mm', hole='9 mm'}]}",
        "bolts.b.plates[0]",
        "`edge` is missing: from the middle of the hole to the nearest edge of the plate",
    ),
    (
        "[studs]\ns = {member='arm', end='to', size='pin 8 mm', reach='9 mm', engaged='9 mm'}",
        "studs.s.size",
        "is not a thread",
    ),
    (
        "[studs]\ns = {member='arm', end='to', size='M8', engaged='9 mm'}",
        "studs.s",
        "`reach` is missing: from the middle",
    ),
    (
        "[struts]\ns = {from='foot', to='tip'}\n[studs]\nt = {member='s', end='to', size='M8', reach='9 mm', engaged='9 mm'}",
        "studs.t",
        "`into` is missing: what does it screw into?",
    ),
    (
        "[sleeves]\ns = {member='arm', end='from', outer='tube 24 x 2 mm', overlap='60 mm'}",
        "sleeves.s.outer",
        "its bore of 20",
    ),
    (
        "[sleeves]\ns = {member='arm', end='from', outer='box 40 x 30 x 2 mm', overlap='60 mm'}",
        "sleeves.s.outer",
        "no round",
    ),
    (
        "[sleeves]\ns = {member='arm', end='from', outer='tube 30 x 2 mm', overlap='400 mm'}",
        "sleeves.s.overlap",
        "longer",
    ),
    (
        "[sleeves]\ns = {member='arm', end='from', outer='nose', overlap='60 mm'}",
        "sleeves.s.outer",
        "no member is named",
    ),
    (
        "[clamps]\nc = {member='arm', end='from', diameter='25 mm', bolts='two M6'}",
        "clamps.c.bolts",
        "write for instance '2 x M8'",
    ),
    (
        "[struts]\ns = {from='foot', to='tip', stiffness='60 N/mm', section='bar 9 mm'}",
        "struts.s",
        "has both `stiffness` and",
    ),
    (
        "[struts]\ns = {from='foot', to='tip', material='S235JR'}",
        "struts.s.material",
        "is given without `section`",
    ),
    (
        "[struts]\ns = {from='foot', to='tip', stiffness='60 mm'}",
        "struts.s.stiffness",
        "is a length, but a stiffness",
    ),
    ("[struts]\narm = {from='foot', to='tip'}", "struts.arm", "a member is named 'arm' too"),
    ("[[support]]\nhold='all'", "support[0]", "`at` is missing: the place, or a list of places"),
    (
        "[[support]]\nat='tip'\nhold='xyz'",
        "support[0].hold",
        "'xyz' is not a hold: write 'all' or any of x y z rx ry rz",
    ),
    ("[[tow]]\nat='tip'", "tow[0]", "`name` is missing: what is it called?"),
    ("[[tow]]\nname='a/b'\nat='tip'", "tow[0].name", "'a/b' has a '/' in it"),
    ("[[tow]]\nname=' '\nat='tip'", "tow[0].name", "the name is empty"),
    (
        "[[tow]]\nname='a\\tb'\nat='tip'".replace("'a", '"a').replace("b'", 'b"'),
        "tow[0].name",
        "cannot be printed",
    ),
    ("[masses]\nm = {mass='3 lbf', at='tip', carried_by='tip'}", "masses.m.mass", "is not a mass: write lb"),
    (
        "[masses]\nm = {mass='3 kg', at='tip', carried_by=['tip', 'tip']}",
        "masses.m.carried_by",
        "'tip' is named twice",
    ),
    (
        "[masses]\nm = {mass='3 kg', at='tip', carried_by=[]}",
        "masses.m.carried_by",
        "has 0 values where at least 1",
    ),
    (
        "[basis]\nyield_factor=0.9",
        "basis.yield_factor",
        "0.9 is below 1: a factor may only be kept or raised",
    ),
    (
        "[basis]\nload_factor={routine=1.5, abus=2}",
        "basis.load_factor.abus",
        "unknown key; did you mean 'abuse'?",
    ),
    ("[basis]\nmethod='asd'", "basis.method", "'asd' is not known here: write one of allowable, limit-state"),
    ("[display]\nunits='imperial'", "display.units", "write one of metric, inch"),
    ("[vehicle]\nleaning='95 deg'", "vehicle.leaning", "must be less than 80 deg"),
    (
        "[road]\ndistance='20000'",
        "road.distance",
        "has no unit: write a distance on the road such as '20000 km'",
    ),
    (
        "[road]\ndistance='9 km'\n[[road.block]]\nfrom='hang'\nto='hnag'\nper_km=1",
        "road.block[0].to",
        "did you mean 'hang'?",
    ),
    (
        "[road]\ndistance='9 km'\n[[road.block]]\nfrom='hang'\nto='hang'\nper_km=1",
        "road.block[0]",
        "nothing changes in it",
    ),
    ("[[change]]\npart='weld w'\nleg='1 mm'", "change[0].part", "no weld is named 'w'"),
    ("[material.own]\nkind='steel'", "material.own.modulus", "`modulus` is missing"),
    ("[filler.own]\nkind='steel'\nstrength='480'", "filler.own.strength", "has no unit"),
    ("[lodas]\nx=1", "lodas", "unknown key or table; did you mean 'loads'?"),
    ("[members]\nx=1", "case", "is not a case file in TOML"),
    ("[brakcets]", "brakcets", "unknown key or table; did you mean 'brackets'?"),
    ("[[points]]\nname='x'", "case", "is not a case file in TOML"),
    ("[material]\nx=3", "material.x", "is not a table: write [material.NAME]"),
]


@pytest.mark.parametrize(("more", "path", "message"), JOINTS)
def test_other_parts(more, path, message):
    """Every other part: path and message, on a bench that is right but for that."""
    found = faults(BENCH + more)
    assert path in found, found
    assert any(message in why for why in found[path]), found


FLATS = [
    (
        "[holes]\nh = {member='arm', along=0.5, diameter='40 mm'}",
        "holes.h.diameter",
        "is not smaller than the width of 'arm' (40",
    ),
    (
        "[holes]\nh = {member='arm', along=0.5, diameter='9 mm', across='width'}",
        "holes.h.diameter",
        "than the thickness",
    ),
    (
        "[holes]\nh = {member='arm', along=0.5, diameter='9 mm', off_centre='-16 mm'}",
        "holes.h.off_centre",
        "breaks out of",
    ),
    (
        "[holes]\nh = {member='arm', along=1.2, diameter='9 mm'}",
        "holes.h.along",
        "1.2 must not be more than 1",
    ),
    (
        "[clamps]\nc = {member='arm', end='from', diameter='25 mm', bolts='2 x M6'}",
        "clamps.c.member",
        "neither round tube nor bar",
    ),
    (
        "[sleeves]\ns = {member='arm', end='from', outer='tube 30 x 2 mm', overlap='60 mm'}",
        "sleeves.s.member",
        "no round tube",
    ),
]


@pytest.mark.parametrize(("more", "path", "message"), FLATS)
def test_on_a_flat(more, path, message):
    """Joints on a flat: path and message."""
    found_path, why = only_fault(with_flat(more))
    assert found_path == path
    assert message in why


def test_shoulder_on_a_bar():
    """A step goes up, and has one sort of root."""
    bar = changed("tube 25 x 2 mm", "bar 20 mm")
    step = "[shoulders]\ns = {{member='arm', end='from', larger='{}', {}}}"
    assert only_fault(bar + step.format("19 mm", "fillet='1 mm'"))[0] == "shoulders.s.larger"
    assert (
        "give one of the two" in only_fault(bar + step.format("25 mm", "fillet='1 mm', root='thread M12'"))[1]
    )
    assert "give one of the two" in only_fault(bar + step.format("25 mm", "inset='2 mm'"))[1]
    assert only_fault(bar + step.format("25 mm", "root='thread M13'"))[0] == "shoulders.s.root"
    assert read(bar + step.format("25 mm", "root='thread M12'")).shoulders[0].root == "M12"


def test_weld_at_a_ball_end():
    """Nothing is welded in the middle of a ball; behind it, it is."""
    ball = changed("section = ", 'to_end = "ball", section = ')
    path, why = only_fault(ball + "[welds]\nw = {member='arm', end='to'}")
    assert path == "welds.w"
    assert "turns freely in a ball: weld behind it, with an `inset`" in why
    assert read(ball + "[welds]\nw = {member='arm', end='to', inset='25 mm'}").welds[0].inset == 25.0
    assert read(ball + "[welds]\nw = {member='arm', end='from'}").welds[0].inset == 0.0


@pytest.mark.parametrize(
    ("key", "message"),
    [
        (
            'material = {tube = "E235+N", box = "S235JRH", flat = "S235JR", bar = "42CrMo4+QT"}',
            "`material` is missing",
        ),
        ('filler = "ER70S-6"', "`filler` is missing: which wire or rod is it welded with"),
        ('class = "8.8"', "`class` is missing: which strength class has it, such as '8.8'?"),
    ],
)
def test_without_defaults(key, message):
    """What has no usual value is asked for, with what it means."""
    joints = "[welds]\nw = {member='arm', end='from'}\n[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8'}"
    _, why = only_fault(changed(key, "") + joints)
    assert message in why


def test_default_metal_is_told_once():
    """An unknown metal among the defaults is the default's fault, not that of each part."""
    path, why = only_fault(
        changed('tube = "E235+N"', 'tube = "E235N"')
        + "[members.rod]\nfrom='tip'\nto='9 9 9 mm'\n".replace("[members.rod]", "[[member]]\nname='rod'")
        + "section='tube 20 x 2 mm'"
    )
    assert path == "defaults.material.tube"
    assert "'E235+N'" in why


LOADS = [
    (
        "standing = {braking = '0.5 g', driving = '0.1 g'}",
        "loads.standing.driving",
        "brakes or drives, not both",
    ),
    (
        "standing = {cornering = '0.3 g', strike = {wheel = 'front.left', up = 2}}",
        "loads.standing.strike",
        "in a bend",
    ),
    (
        "standing = {strike = {wheel = 'rear', up = 1, inward = 0.3}}",
        "loads.standing.strike.inward",
        "where no side is inward",
    ),
    (
        "standing = {strike = {wheel = 'raer', up = 1}}",
        "loads.standing.strike.wheel",
        "no wheel is named 'raer'; did you mean",
    ),
    (
        "standing = {strike = {wheel = 'rear', back = 1}}",
        "loads.standing.strike",
        "`up` is missing: how many times its standing",
    ),
    (
        "standing = {off_ground = ['raer']}",
        "loads.standing.off_ground[0]",
        "no wheel is named 'raer'; did you mean 'rear'?",
    ),
    ("standing = {off_ground = ['rear']}", "loads.standing", "it stands on 2 wheels in this load"),
    ("standing = {braking = '-0.5 g'}", "loads.standing.braking", "must not be less than 0 g"),
    (
        "standing = {braking = 0.5}",
        "loads.standing.braking",
        "is a bare number: put it in quotes with a unit, such as '0.5 g'",
    ),
    ("standing = {vertical = '1.5'}", "loads.standing.vertical", "'1.5' is not a bare number, such as 0.5"),
    ("standing = {vertical = nan}", "loads.standing.vertical", "nan is not a finite number"),
    ("standing = {severity = 'extreme'}", "loads.standing.severity", "write one of routine, hard, abuse"),
    (
        "standing = {forces = [{at = 'hub.left'}]}",
        "loads.standing.forces[0]",
        "puts nothing on: give `force`, `moment` or both",
    ),
    (
        "standing = {forces = [{at = 'hub', force = '1 2 3 N'}]}",
        "loads.standing.forces[0].at",
        "did you mean 'hub.left'?",
    ),
    (
        "standing = {forces = [{at = 'tail', force = '1 2 3 kg'}]}",
        "loads.standing.forces[0].force",
        "is not a force: write kgf",
    ),
]


@pytest.mark.parametrize(("load", "path", "message"), LOADS)
def test_loads(load, path, message):
    """Loads: path and message."""
    found, why = only_fault(changed("standing = {}", load, TRIKE))
    assert found == path
    assert message in why


def test_nothing_brakes():
    """Braking needs a braked wheel, driving a driven one, or a tow."""
    text = changed(", driven = true", "", TRIKE).replace("standing = {}", "pull = {driving = '0.2 g'}")
    path, why = only_fault(text)
    assert path == "loads.pull.driving"
    assert why == "no wheel is driven: write driven = true where it is, or leave driving out"
    towed = text.replace("leaning", "#") + "[tows]\neye = {at = 'tail'}"
    assert read(towed).tows[0].at == "tail"
    lifted = changed("standing = {}", "pull = {driving = '0.2 g', off_ground = 'rear'}", TRIKE)
    assert "no wheel on the ground is driven" in faults(lifted)["loads.pull.driving"][0]


def test_struck_in_the_air():
    """A wheel that is off the ground is not struck."""
    load = "standing = {strike = {wheel = 'rear', up = 1}, off_ground = 'rear'}"
    found = faults(changed("standing = {}", load, TRIKE))
    assert found["loads.standing.strike.wheel"] == [
        "'rear' is off the ground in this load, so nothing strikes it"
    ]


VEHICLES = [
    ("[tows]\neye = {at = 'tail'}", "tows.eye", "a body that leans cannot tow"),
    ("[[support]]\nat = 'tail'\nhold = 'z'", "support[0].at", "the road carries the wheel 'rear' already: leave the support out"),
    ("[points]\nq = 1".replace("[points]\nq = 1", "[[member]]\nname='brace'\nfrom='hub.left'\nto='toe.left'\nsection='bar 9 mm'\n"
                               "[[point]]\nname='toe.left'\nat='90 400 250 mm'"), "member[0]", "call it 'brace.left', and it is mirrored"),
    ("[welds]\nw = {member = 'axle.left', end = 'from'}", "welds.w", "all it names ends in '.left' (axle.left)"),
    ("[[point]]\nname = 'p'\nfrom = 'hub.left'\nby = '0 0 9 mm'", "point[0]", "all it names ends in '.left' (hub.left)"),
    ("[[point]]\nname = 'p'\nfrom = 'hub.left'", "point[0]", "a point is given in one of these ways"),
    ("[[point]]\nname = 'p'\nat = 0.5", "point[0]", "a point is given in one of these ways"),
    ("[[point]]\nname = 'p'\nbetween = ['middle', 'tail']\nat = '1 2 3 mm'", "point[0]", "a point is given in one of these"),
    ("[[point]]\nname = 'p'\non = 'spin'\nat = 0.5", "point[0]", "no member is named 'spin'; did you mean 'spine'?"),
    ("[[point]]\nname = '2nd'\nat = '1 2 3 mm'", "point[0]", "begin it with a letter"),
    ("[[point]]\nname = 'p'\nfrom = 'q'\nby = '0 0 9 mm'\n[[point]]\nname = 'q'\nfrom = 'p'\nby = '0 0 9 mm'",
     "point[0]", "is defined in a circle: p -> q -> p"),
    ("[[member]]\nname='spine'\nfrom='tail'\nto='9 9 9 mm'\nsection='bar 9 mm'", "member[0]",
     "the member 'spine' is there twice: members.spine and member[0]"),
    ("[[member]]\nname='axle.right'\nfrom='tail'\nto='9 9 9 mm'\nsection='bar 9 mm'", "member[0]", "is there twice"),
]  # fmt: skip


@pytest.mark.parametrize(("more", "path", "message"), VEHICLES)
def test_vehicles(more, path, message):
    """Whole vehicles: path and message."""
    found = faults(TRIKE + more)
    assert path in found, found
    assert any(message in why for why in found[path]), found


def test_second_tow():
    """A vehicle is drawn at one place."""
    upright = changed('leaning = "20 deg"', "", TRIKE)
    path, why = only_fault(upright + "[tows]\na = {at = 'tail'}\nb = {at = 'middle'}")
    assert path == "tows.b"
    assert "there is a tow already, 'a'" in why


def test_mass_that_nothing_carries():
    """A vehicle that flies free carries all its masses; on a bench one may go without."""
    path, why = only_fault(changed(', carried_by = ["middle", "tail"]', "", TRIKE))
    assert path == "masses.rider"
    assert "`carried_by` is missing: which points carry it" in why
    assert read(BENCH + "[masses]\nm = {mass = '3 kg', at = '1 2 3 mm'}").masses[0].carried_by == ()


def test_all_faults_at_once():
    """A file full of faults is told in one go, in the order of the file."""
    text = BENCH.replace("tube 25 x 2 mm", "tube 25 x 2").replace(
        'force = "0 0 -700 N"', 'force = "0 0 -700"'
    )
    text = text.replace('foot = "0 0 0 mm"', 'foot = "0 0 0"').replace('class = "8.8"', "class = 8.8")
    text += "[holes]\nh = {member = 'amr', along = 2, diametre = '3 mm'}\n"
    assert set(faults(text)) == {
        "defaults.class",
        "points.foot.at",
        "members.arm.section",
        "loads.hang.forces[0].force",
        "holes.h.along",
        "holes.h.diametre",
        "holes.h.member",
    }


def test_one_bad_key_brings_no_others():
    """What hangs on a key that cannot be read is not told as well."""
    text = BENCH.replace('foot = "0 0 0 mm"', 'foot = "0 0 mm"')
    assert set(faults(text + "[welds]\nw = {member = 'arm', end = 'to', inset = '9 mm'}")) == {
        "points.foot.at"
    }
