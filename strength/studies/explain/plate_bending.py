"""`plate-bending` by hand: a flat bent by what is welded onto it, or as a lug."""

import numpy as np

from strength.case.shape import Flat
from strength.checks.plate_bending import BESIDE
from strength.checks.walls import WallJoint, host_forces
from strength.frame.response import at_places
from strength.joints.plate import root_moment
from strength.studies.explain.joint_lines import joint_of, path_origin
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import (
    Subject,
    finish,
    loaded,
    metal_origin,
    write_forces,
    yield_divisor,
)

ASKS = (
    "Does the plate bend under what is welded onto its face? Only a width near the load carries its bending; "
    "that stress must stay under the welded yield strength divided by its factor."
)
JARAMILLO = "Jaramillo 1950, as in Roark, beams of great width (from memory)"


def explain(subject: Subject, sheet: Sheet) -> Told:
    """6 M/(b_eff t^2)."""
    if subject.row.part in subject.context.bars.names and not any(
        weld.name == subject.row.part for weld in subject.context.case.welds
    ):
        from strength.studies.explain.lug_bending import explain_lug

        return explain_lug(subject, sheet)
    joint = joint_of(subject)
    host = joint.meeting.host
    if not isinstance(host.shape, Flat):
        raise TypeError(f"{joint.effect.weld.onto} is no flat")
    _moment(sheet, subject, joint)
    key = subject.key(host.bar, "section")
    bars = subject.context.bars
    sheet.given("b", bars.depth[0, host.bar], "length", "width of the flat", key)
    sheet.given("t", bars.width[0, host.bar], "length", "its thickness", key)
    place = float(root_moment(np.array([sheet["c"] / sheet["l"]]))[0])
    sheet.step("k_c", "c/l", "1", "distance over depth")
    sheet.given("K_m", place, "1", "greatest root moment per width over the load, at that place", JARAMILLO)
    off = abs(float(np.ravel(host.origin)[:3] @ host.axes[2]))
    half = ""
    if off > BESIDE * float(bars.depth[0, host.bar]):
        half = "/2"
        sheet.say(f"The load stands {off:.4g} mm off the middle, beside a free edge: half (own choice).")
    sheet.step("b_eff", f"min(b, c/K_m{half})", "length", "width that carries")
    sheet.step("sigma", loaded(sheet, subject, "6*abs(M_z)/(b_eff*t^2)"), "stress", "bending stress")
    metal = joint.wall.metal
    what = "yield strength of the flat, welded"
    sheet.given("f_y", joint.wall.yield_[0], "stress", what, metal_origin(metal, sheet["t"], welded=True))
    brittle = "elongation under 10 % or not known" if joint.wall.brittle else ""
    yield_divisor(sheet, subject, metal.kind, brittle=brittle)
    sheet.step("limit", "f_y/n", "stress", "what the stress may reach")
    finish(sheet, "sigma", "limit", joint.effect.path_factor, path_origin(joint))
    return Told(asks=ASKS, demand="sigma", limit="limit")


def _moment(sheet: Sheet, subject: Subject, joint: WallJoint) -> None:
    """The flat's bending at the section that the row names, the distance c of the load and the depth l."""
    context, meeting = subject.context, joint.meeting
    host = meeting.host
    name = joint.effect.weld.onto
    places = (
        f"from-end of {name}",
        f"to-end of {name}",
        f"{name}, from-side of the weld",
        f"{name}, to-side of the weld",
    )
    number = places.index(subject.row.where)
    at, length = float(np.ravel(host.at)[0]), host.length
    least = max(float(np.ravel(meeting.high)[0]) - float(np.ravel(meeting.low)[0]), 1.0) / 2.0
    ends = at_places(
        context.layout,
        context.response,
        np.full(2, host.bar, dtype=np.intp),
        np.array([[0.0, length]]),
        np.array([1, 0], dtype=np.intp),
    )
    every = np.concatenate([ends, host_forces(context, meeting)], axis=2)[0, subject.load]
    write_forces(sheet, subject, every[number], "5", f"frame: {subject.row.where}")
    distance = max(at if number % 2 == 0 else length - at, least)
    distance = min(distance, length) if number < 2 else distance
    key = "from the places of both parts"
    sheet.given("c", distance, "length", "distance of the load from the section that holds", key)
    sheet.given("l", length if number < 2 else distance, "length", "depth of the plate from there", key)
