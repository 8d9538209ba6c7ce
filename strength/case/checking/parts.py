"""Members and struts: length, line, ends, orientation."""

from strength.case.checking.survey import Survey, shape_of
from strength.case.shape import Box, Flat, Rigid
from strength.case.trade.axes import default_up
from strength.case.trade.entry import Entry
from strength.case.trade.vector import cross, distance, fraction_of, length, minus, off_line, unit

SAME = 0.01  # mm
ON_LINE = 0.5  # mm
ALONG = 1e-3  # sine of the angle under which `up` gives no direction across the part


def check_parts(survey: Survey) -> None:
    """Tell what is wrong with members and struts."""
    for member in survey.of("member").values():
        _check_line(survey, member)
        _check_ends(survey, member)
        _check_up(survey, member)
        if member.name in survey.of("strut"):
            other = survey.of("strut")[member.name]
            survey.fault(other, "", f"a member is named {member.name!r} too: joints could mean either")
    for strut in survey.of("strut").values():
        _check_line(survey, strut)
        _check_strut(survey, strut)
        _check_up(survey, strut)


def _check_line(survey: Survey, part: Entry) -> None:
    """Both ends apart, and every via point between them in order."""
    ends = survey.ends(part)
    if ends is None:
        return
    if distance(*ends) < SAME:
        survey.fault(part, "", "has no length: it begins and ends at the same place")
        return
    long = distance(*ends)
    last = 0.0
    via = part.keys.get("via", ())
    for i, name in enumerate(via):
        at = survey.points.get(name)
        if at is None:
            continue
        off = off_line(at, *ends)
        along = fraction_of(at, *ends) * long
        key = f"via[{i}]"
        if off > ON_LINE:
            survey.fault(
                part,
                key,
                f"{name!r} is {off:.3g} mm off its line, more than {ON_LINE} mm: move one of the two",
            )
        elif along < SAME or along > long - SAME:
            survey.fault(part, key, f"{name!r} does not lie between its ends: leave it out, or move it")
        elif along <= last + SAME:
            survey.fault(
                part, key, f"{name!r} comes before {via[i - 1]!r} along it: put them in order from end to end"
            )
        last = max(last, along)


def _check_ends(survey: Survey, member: Entry) -> None:
    keys = member.keys
    hinged = "hinge" in (keys.get("from_end"), keys.get("to_end"))
    if hinged and "hinge_axis" not in keys and not survey.faults.under(member.path):
        survey.fault(
            member, "", "`hinge_axis` is missing: about which direction does the hinge turn, such as '1 0 0'?"
        )
    if "hinge_axis" in keys and not hinged:
        survey.fault(
            member,
            "hinge_axis",
            'there is no hinge: write from_end or to_end = "hinge", or leave the axis out',
        )


def _check_up(survey: Survey, part: Entry) -> None:
    ends = survey.ends(part)
    if ends is None or distance(*ends) < SAME:
        return
    x = unit(minus(ends[1], ends[0]))
    up = part.keys.get("up")
    if up is not None and length(cross(up, x)) < ALONG:
        survey.fault(
            part, "up", "points along the part itself: it says which way the depth points, across it"
        )
    shape = shape_of(part)
    if isinstance(shape, Flat) and shape.thickness > shape.width:
        survey.warn(
            part.name,
            f"its plate is {shape.width:g} mm wide and {shape.thickness:g} mm thick: is it the wrong way "
            "round? The width stands first, 'flat WIDTH x THICKNESS'",
        )
    if up is not None or part.kind == "strut":
        return
    way = "forward, as the part is upright" if default_up(x) == (1.0, 0.0, 0.0) else "up"
    if isinstance(shape, Flat):
        survey.warn(part.name, f"`up` is left out: its width of {shape.width:g} mm is taken to point {way}")
    elif isinstance(shape, Box) and shape.depth != shape.width:
        survey.warn(part.name, f"`up` is left out: its depth of {shape.depth:g} mm is taken to point {way}")


def _check_strut(survey: Survey, strut: Entry) -> None:
    keys = strut.keys
    if "stiffness" in keys and "section" in keys:
        survey.fault(
            strut,
            "",
            "has both `stiffness` and `section`: give the stiffness of a spring, or what a rod is cut from",
        )
    if "material" in keys and "section" not in keys:
        survey.fault(strut, "material", "is given without `section`: give both, or leave it out")
    if isinstance(keys.get("section"), Rigid):
        survey.fault(
            strut, "section", "a strut that holds its length has no section at all: leave the key out"
        )
