"""Holes in flats and steps in bars."""

from strength.case.checking.survey import Survey, shape_of
from strength.case.shape import Bar, Flat
from strength.case.trade.entry import Entry
from strength.errors import UnknownNameError
from strength.library.threads import thread


def check_cuts(survey: Survey) -> None:
    """Tell what is wrong with holes and shoulders."""
    for hole in survey.of("hole").values():
        if not survey.unknown(hole, "member", ("member",)):
            _check_hole(survey, hole)
    for shoulder in survey.of("shoulder").values():
        if not survey.unknown(shoulder, "member", ("member",)):
            _check_shoulder(survey, shoulder)


def _check_hole(survey: Survey, hole: Entry) -> None:
    part = survey.of("member")[hole.keys["member"]]
    shape = shape_of(part)
    if shape is None:
        return
    if not isinstance(shape, Flat):
        survey.fault(hole, "member", f"{part.name!r} is no flat: only holes in flats are worked out")
        return
    diameter = hole.keys.get("diameter")
    if diameter is None:
        return
    across = hole.keys.get("across", "thickness")
    room, what = (shape.width, "width") if across == "thickness" else (shape.thickness, "thickness")
    if diameter >= room:
        why = f"{diameter:.4g} mm is not smaller than the {what} of {part.name!r} ({room:.4g} mm)"
        survey.fault(hole, "diameter", why)
        return
    off = abs(hole.keys.get("off_centre", 0.0))
    if off + diameter / 2 >= room / 2:
        why = f"the hole breaks out of {part.name!r}: only {room / 2 - diameter / 2:.4g} mm can be given away"
        survey.fault(hole, "off_centre", why)


def _check_shoulder(survey: Survey, shoulder: Entry) -> None:
    keys = shoulder.keys
    part = survey.of("member")[keys["member"]]
    shape = shape_of(part)
    if shape is not None and not isinstance(shape, Bar):
        survey.fault(shoulder, "member", f"{part.name!r} is no round bar: only steps in bars are worked out")
    elif shape is not None and "larger" in keys and keys["larger"] <= shape.diameter:
        why = f"{keys['larger']:.4g} mm is not larger than {part.name!r} itself ({shape.diameter:.4g} mm)"
        survey.fault(shoulder, "larger", why)
    long = survey.length(part)
    if long is not None and keys.get("inset", 0.0) > long:
        survey.fault(shoulder, "inset", f"is beyond {part.name!r}, {long:.4g} mm long")
    if ("fillet" in keys) == ("root" in keys) and not survey.faults.under(shoulder.path):
        survey.fault(shoulder, "", "has a `fillet` radius or a thread `root`: give one of the two")
    if "root" in keys:
        try:
            thread(keys["root"])
        except UnknownNameError as error:
            survey.fault(shoulder, "root", str(error))
