"""`tab-wall` by hand: a plate, box or tube standing on the wall of a tube or box."""

from strength.case.shape import Bar, Flat, Tube
from strength.checks.standing import Standing, standing, words
from strength.checks.wall_kinds import make_up
from strength.checks.walls import WallJoint
from strength.studies.explain.joint_lines import joint_of, path_origin, write_joint, write_squeeze
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish
from strength.studies.explain.tab_box import write_on_box
from strength.studies.explain.tab_tube import write_on_tube

ASKS = (
    "Does the wall give way under the part that stands on it? Axial force and both bendings, each over what "
    "the wall carries and all together, must stay under 1."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """On a round tube or on a box."""
    joint = joint_of(subject)
    own = make_up(joint)
    if own is None:
        raise TypeError(f"no table has {joint.effect.weld.name}")
    stand = standing(subject.context, [joint], own)
    sheet.say(f"{joint.effect.weld.member}: {words(joint, own)}.")
    write_joint(sheet, subject, joint)
    write_squeeze(sheet, subject, joint)
    _write_standing(sheet, subject, joint, stand)
    if isinstance(joint.meeting.host.shape, Tube):
        write_on_tube(sheet, subject, joint, stand)
    else:
        write_on_box(sheet, subject, joint, stand)
    finish(sheet, "u_0", "", joint.effect.path_factor, path_origin(joint))
    return Told(asks=ASKS, demand="u_0")


def _write_standing(sheet: Sheet, subject: Subject, joint: WallJoint, stand: Standing) -> None:
    """Sizes of what stands: b_1 across the host, h_1 along it, t_1."""
    bar = joint.effect.seat.bar
    key = subject.key(bar, "section")
    thick = "thickness" if isinstance(joint.effect.seat.shape, Flat) else "wall"
    if isinstance(joint.effect.seat.shape, Bar):
        thick = "half the diameter, as its wall"
    for symbol, values, what in (
        ("b_1", stand.b1, "its size across the host"),
        ("h_1", stand.h1, "its size along the host"),
        ("t_1", stand.t1, f"its {thick}"),
    ):
        sheet.given(symbol, values[0, 0, 0], "length", what, key)
