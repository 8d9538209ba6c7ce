"""Bolts, studs, sleeves, clamps and dropouts: what they belong to and what they go through."""

import math

from strength.case.checking.survey import Survey, shape_of
from strength.case.defaults import Defaults
from strength.case.model import BoltSize
from strength.case.shape import Bar, Flat, Tube
from strength.case.trade.axes import member_axes
from strength.case.trade.entry import Entry
from strength.case.trade.vector import dot
from strength.errors import RangeError, UnknownNameError
from strength.library.bolt import find_bolt_class
from strength.library.threads import thread
from strength.values import evolve

SAME = 1e-6  # mm
PRESSED = 0.5  # mm, an inner tube over its outer one's bore: more cannot be put together
IN_PLANE = math.cos(math.radians(45.0))  # own choice: nearer to the plate's plane than to its normal


def check_joints(survey: Survey, defaults: Defaults) -> None:
    """Tell what is wrong with bolts, studs, sleeves, clamps and dropouts."""
    for bolt in survey.of("bolt").values():
        if not survey.unknown(bolt, "member", ("member", "strut")):
            _check_axis(survey, bolt)
        _check_size(survey, bolt, bolt.keys.get("size"), "size", defaults)
        _check_plates(survey, bolt)
    for stud in survey.of("stud").values():
        survey.unknown(stud, "member", ("member", "strut"))
        _check_size(survey, stud, stud.keys.get("size"), "size", defaults)
        part = survey.member_of(stud)
        if part is not None and "into" not in stud.keys and "material" not in part.keys:
            why = "`into` is missing: what does it screw into? Write into = {material = ...}"
            if not survey.faults.under(part.path):
                survey.fault(stud, "", why)
    for sleeve in survey.of("sleeve").values():
        if not survey.unknown(sleeve, "member", ("member",)):
            _check_sleeve(survey, sleeve, defaults)
    for clamp in survey.of("clamp").values():
        if not survey.unknown(clamp, "member", ("member",)):
            _check_clamp(survey, clamp)
        _check_size(survey, clamp, clamp.keys.get("bolts", (0, None))[1], "bolts", defaults)
    for dropout in survey.of("dropout").values():
        if not survey.unknown(dropout, "member", ("member",)):
            _check_dropout(survey, dropout)


def _check_dropout(survey: Survey, dropout: Entry) -> None:
    """The flats stand in the slot, and its round part does not turn there."""
    keys = dropout.keys
    part = survey.of("member")[keys["member"]]
    if "material" not in keys and "material" not in part.keys and not survey.faults.under(part.path):
        survey.fault(dropout, "", "`material` is missing: what is the dropout made of?")
    axle, slot = keys.get("axle"), keys.get("slot")
    if axle is None:
        return
    flats, diameter = axle["flats"], axle["diameter"]
    if flats >= diameter - SAME:
        why = f"{flats:g} mm across the flats of an axle of {diameter:g} mm leaves no flats"
        survey.fault(dropout, "axle.flats", why)
    if slot is not None and slot < flats - SAME:
        survey.fault(dropout, "slot", f"{slot:g} mm is narrower than the flats ({flats:g} mm)")
    elif slot is not None and slot >= diameter - SAME:
        why = f"the axle of {diameter:g} mm turns in a slot of {slot:g} mm: nothing holds it"
        survey.fault(dropout, "slot", why)


def _check_axis(survey: Survey, bolt: Entry) -> None:
    """Warn of a bolt that would run inside its flat."""
    part = survey.member_of(bolt)
    shape = shape_of(part)
    ends = None if part is None else survey.ends(part)
    axis = bolt.keys.get("axis")
    if part is None or ends is None or axis is None or not isinstance(shape, Flat):
        return
    axes = member_axes(*ends, part.keys.get("up"))
    if axes is not None and abs(dot(axes.y, axis)) < IN_PLANE:
        survey.warn(
            bolt.name,
            f"its axis lies in the plane of its flat {part.name!r}, not across its {shape.thickness:g} mm: "
            "check `axis`, or `up` of the flat",
        )


def _check_size(survey: Survey, joint: Entry, size: BoltSize | None, key: str, defaults: Defaults) -> None:
    """The library knows the thread, and the class at that size."""
    if size is None:
        return
    path = joint.path if joint.maker else f"{joint.path}.{key}"
    try:
        if size.kind == "thread":
            thread(size.text)
    except UnknownNameError as error:
        survey.faults.add(path, str(error))
        return
    grade = joint.keys.get("class")
    if grade is None or size.kind == "shoulder":
        return
    try:
        find_bolt_class(grade, size.diameter)
    except (UnknownNameError, RangeError) as error:
        origin = defaults.origin.get((joint.kind, joint.name, "class"))
        survey.faults.add(origin or f"{joint.path}.class", str(error))


def _check_plates(survey: Survey, bolt: Entry) -> None:
    """The bolt goes through the hole, and the hole stands in the plate."""
    if "lug" in bolt.keys:
        _check_lug(survey, bolt)
    size: BoltSize | None = bolt.keys.get("size")
    for i, plate in enumerate(bolt.keys.get("plates", ())):
        hole, edge = plate["hole"], plate["edge"]
        if size is not None and hole < size.diameter - SAME:
            why = f"a hole of {hole:g} mm is smaller than the {size.diameter:g} mm that go through it"
            survey.fault(bolt, f"plates[{i}].hole", why)
        if edge <= hole / 2 + SAME:
            why = f"{edge:g} mm from the hole's middle to the edge is inside the hole"
            survey.fault(bolt, f"plates[{i}].edge", why)


def _check_lug(survey: Survey, bolt: Entry) -> None:
    """The eye of one bolt, across its part, with metal round the hole."""
    keys = bolt.keys
    plates, part = keys.get("plates", ()), survey.member_of(bolt)
    if not plates:
        survey.fault(bolt, "lug", "`plates` is missing: how thick is the eye, of what metal, and its hole?")
        return
    if keys.get("group"):
        survey.fault(bolt, "lug", "it is the eye of one bolt, not of a group: leave it out")
    for name, far in zip(("end", "side"), keys["lug"], strict=True):
        if far <= plates[0]["hole"] / 2 + SAME:
            why = f"{far:g} mm from the hole's middle to the {name} is inside the hole"
            survey.fault(bolt, f"lug.{name}", why)
        elif far < plates[0]["edge"] - SAME:
            why = f"{far:g} mm is less than the {plates[0]['edge']:g} mm to the nearest edge: check both"
            survey.fault(bolt, f"lug.{name}", why)
    ends, axis = None if part is None else survey.ends(part), keys.get("axis")
    along = None if ends is None else member_axes(*ends, None)
    if along is not None and axis is not None and abs(dot(along.x, axis)) > IN_PLANE:
        survey.fault(bolt, "lug", "its bolt runs along the part, not across it: leave it out")


def _check_sleeve(survey: Survey, sleeve: Entry, defaults: Defaults) -> None:
    inner = survey.of("member")[sleeve.keys["member"]]
    shape = shape_of(inner)
    if shape is not None and not isinstance(shape, Tube):
        survey.fault(sleeve, "member", f"{inner.name!r} is no round tube: a sleeve joins tube in tube")
        return
    outer = sleeve.keys.get("outer")
    if isinstance(outer, str):
        if survey.unknown(sleeve, "outer", ("member",)):
            return
        outer = shape_of(survey.of("member")[outer])
    if outer is not None and not isinstance(outer, Tube):
        survey.fault(sleeve, "outer", "is no round tube: a sleeve joins tube in tube")
    elif outer is not None and shape is not None and not fits_in(shape, outer):
        bore = outer.od - 2 * outer.wall
        why = f"its bore of {bore:.4g} mm is smaller than the inner tube ({shape.od:.4g} mm)"
        survey.fault(sleeve, "outer", why)
    long, overlap = survey.length(inner), sleeve.keys.get("overlap")
    if long is not None and overlap is not None and overlap > long:
        survey.fault(sleeve, "overlap", f"{overlap:.4g} mm is longer than {inner.name!r} ({long:.4g} mm)")
    bolt = sleeve.keys.get("bolt")
    if bolt:
        pin = evolve(sleeve, keys=bolt, path=f"{sleeve.path}.bolt")
        _check_size(survey, pin, bolt["size"], "size", defaults)


def fits_in(inner: Tube, outer: Tube) -> bool:
    """Whether one tube goes into the bore of another, pressed in at most."""
    return not outer.od - 2 * outer.wall < inner.od - PRESSED


def _check_clamp(survey: Survey, clamp: Entry) -> None:
    part = survey.of("member")[clamp.keys["member"]]
    shape = shape_of(part)
    if shape is None:
        return
    if not isinstance(shape, Tube | Bar):
        survey.fault(clamp, "member", f"{part.name!r} is neither round tube nor bar: nothing to clamp round")
        return
    outside = shape.od if isinstance(shape, Tube) else shape.diameter
    given = clamp.keys.get("diameter")
    if given is not None and abs(given - outside) > PRESSED:
        survey.warn(clamp.name, f"its diameter is {given:g} mm, but {part.name!r} is {outside:g} mm across")
