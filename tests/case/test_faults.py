"""What a builder gets wrong, one by one: the path, what is wrong and what to do."""

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.case.cases import BENCH, TRIKE, faults, only_fault, read


def changed(old: str, new: str, base: str = BENCH) -> str:
    """A case with one thing typed otherwise."""
    assert base.count(old) == 1
    return base.replace(old, new)


ARM = 'arm = {from = "foot", to = "tip", section = "tube 25 x 2 mm"}'
FLAT = 'arm = {from = "foot", to = "tip", section = "flat 40 x 8 mm", up = "0 0 1"}'


ROWS = tomllib.loads(Path(__file__).with_name("faults.toml").read_text(encoding="utf-8"))


def cases() -> Iterator[object]:
    """Whole case, path, message and whether it is the only fault, of each row."""
    whole = {
        "arm": lambda typed: changed(ARM, f"arm = {{{typed}}}"),
        "bench": lambda typed: BENCH + typed,
        "flat": lambda typed: changed(ARM, FLAT) + typed,
        "load": lambda typed: changed("standing = {}", typed, TRIKE),
        "trike": lambda typed: TRIKE + typed,
    }
    for kind, rows in ROWS.items():
        for i, row in enumerate(rows):
            alone = row.get("alone", False)
            yield pytest.param(
                whole[kind](row["typed"]), row["path"], row["message"], alone, id=f"{kind}{i} {row['path']}"
            )


@pytest.mark.parametrize(("text", "path", "message", "alone"), list(cases()))
def test_fault(text, path, message, alone):
    """Each thing that can be wrong has its path, what is wrong and what to do."""
    found = faults(text)
    assert path in found, found
    assert any(message in why for why in found[path]), found
    assert len(found) == 1 or not alone, found


def test_via_out_of_order():
    """Via points are typed from end to end."""
    via = 'via = ["240 32 96 mm", "60 8 24 mm"], '
    path, why = only_fault(changed("section =", via + "section ="))
    assert path == "members.arm.via[1]"
    assert why == "'arm-via-2' comes before 'arm-via-1' along it: put them in order from end to end"


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
    joints = "[welds]\nw = {member='arm', end='from'}\n"
    joints += "[bolts]\nb = {member='arm', end='to', axis='0 1 0', size='M8'}"
    _, why = only_fault(changed(key, "") + joints)
    assert message in why


def test_default_metal_is_told_once():
    """An unknown metal among the defaults is the default's fault, not that of each part."""
    rod = "[[member]]\nname='rod'\nfrom='tip'\nto='9 9 9 mm'\nsection='tube 20 x 2 mm'"
    path, why = only_fault(changed('tube = "E235+N"', 'tube = "E235N"') + rod)
    assert path == "defaults.material.tube"
    assert "'E235+N'" in why


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
