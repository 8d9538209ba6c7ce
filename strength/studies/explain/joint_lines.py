"""A member welded onto another by hand: its forces, and what the host carries besides."""

import numpy as np

from strength.case.shape import Bar, Tube
from strength.checks.wall_columns import HIGH, HIGH_FACTOR, wall_columns
from strength.checks.walls import WallJoint, host_forces, wall_joints
from strength.checks.weld_groups import forces_through
from strength.checks.welds import weld_effects
from strength.library import Metal
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import (
    Subject,
    along_words,
    keyed,
    loaded,
    metal_origin,
    write_forces,
    yield_divisor,
)

MOMENT = ("T", "M_y", "M_z")


def joint_of(subject: Subject) -> WallJoint:
    """The joint of a row."""
    return next(j for j in wall_joints(subject.context) if j.effect.weld.name == subject.row.part)


def write_joint(sheet: Sheet, subject: Subject, joint: WallJoint) -> None:
    """Forces N_d, M_ip, M_op times load factor and divisor, the angle and the wall's yield."""
    context, seat = subject.context, joint.effect.seat
    effects = weld_effects(context)
    number = next(n for n, effect in enumerate(effects) if effect.weld is joint.effect.weld)
    forces = forces_through(context, tuple(effect.seat for effect in effects))[0, subject.load, number]
    origin = along_words(subject, seat.bar, float(np.ravel(seat.plane)[0]))
    write_forces(sheet, subject, forces, "0345", f"{origin}; through the weld's plane")
    metal = joint.wall.metal
    brittle = "elongation under 10 % or not known" if joint.wall.brittle else ""
    yield_divisor(sheet, subject, metal.kind, brittle=brittle, gamma="gamma_m5")
    sheet.step(
        "N_d", loaded(sheet, subject, "n*N"), "force", "N with its factors: stands against full strengths"
    )
    told = "from the places of both parts"
    meeting = joint.meeting
    sheet.turned("M_1", meeting.in_plane, "i", MOMENT, "moment", "bending in the plane of both parts", told)
    sheet.turned("M_2", meeting.out_of_plane, "o", MOMENT, "moment", "bending out of that plane", told)
    sheet.step("M_ip", loaded(sheet, subject, "n*abs(M_1)"), "moment", "in the plane, with its factors")
    sheet.step("M_op", loaded(sheet, subject, "n*abs(M_2)"), "moment", "out of the plane, with its factors")
    sheet.given("theta", meeting.angle, "angle", "between the two parts", told)
    _write_yield(sheet, joint, metal, float(wall_columns(context, [joint]).fy[0, 0, 0]))


def _write_yield(sheet: Sheet, joint: WallJoint, metal: Metal, used: float) -> None:
    host = joint.effect.weld.onto
    value = float(joint.wall.yield_[0])
    origin = metal_origin(
        metal, float(joint.wall.wall[0]) if np.isfinite(joint.wall.wall[0]) else 0.0, welded=True
    )
    if used == value:
        sheet.given("f_y0", value, "stress", f"yield strength of {host}, welded", origin)
        return
    sheet.given("f_0", value, "stress", f"yield strength of {host}, welded", origin)
    why = f"over {HIGH:g} MPa joint strengths times this (EN 1993-1-8 7.1.1(4), from memory)"
    sheet.given("k_high", HIGH_FACTOR, "1", why, "EN 1993-1-8")
    sheet.step("f_y0", "k_high*f_0", "stress", "yield strength that counts")


def write_squeeze(sheet: Sheet, subject: Subject, joint: WallJoint) -> None:
    """n_p: greatest compression of the host next to the weld over its yield, with its factors."""
    context, host = subject.context, joint.meeting.host
    bars, bar = context.bars, host.bar
    inside = host_forces(context, joint.meeting)[0, subject.load]
    area, wy, wz = (float(v[0, bar]) for v in (bars.area, bars.modulus_y, bars.modulus_z))
    is_round = isinstance(host.shape, Tube | Bar)
    bend = (
        np.hypot(inside[:, 4], inside[:, 5]) / wy
        if is_round
        else np.abs(inside[:, 4]) / wy + np.abs(inside[:, 5]) / wz
    )
    side = int(np.argmax(bend - inside[:, 0] / area))
    origin = f"frame: {bars.names[bar]} beside the weld, {('from', 'to')[side]}-side"
    write_forces(sheet, subject, inside[side], "045", origin, "host_")
    key = f"of the section, {subject.key(bar, 'section')}"
    sheet.given("A_0", area, "area", f"area of {bars.names[bar]}", key)
    sheet.given("W_y0", wy, "modulus", f"modulus of {bars.names[bar]} for M_y", key)
    if is_round:
        formula = "hypot(host_M_y, host_M_z)/W_y0 - host_N/A_0"
    else:
        sheet.given("W_z0", wz, "modulus", f"modulus of {bars.names[bar]} for M_z", key)
        formula = "abs(host_M_y)/W_y0 + abs(host_M_z)/W_z0 - host_N/A_0"
    sheet.step("s_0", f"max(0, {formula})", "stress", "greatest compression of the host there")
    strength = "f_0" if "f_0" in sheet else "f_y0"
    formula = f"s_0/{strength}" if subject.limit_state else f"n*s_0/{strength}"
    sheet.step("n_p", loaded(sheet, subject, formula), "1", "the same over its yield, with its factors")


def write_interaction(sheet: Sheet, symbol: str, what: str) -> None:
    """Utilisation from the three ratios u_N, u_ip, u_op."""
    sheet.step("u_A", "u_N + u_op", "1", "A: axial and out of the plane")
    formula = "(u_A + sqrt(u_A^2 + 4*u_ip^2))/2"
    sheet.step(symbol, formula, "1", what + " (EN 1993-1-8 equation 7.3, solved for the load)")


def write_sizes(sheet: Sheet, subject: Subject, joint: WallJoint) -> None:
    """d_0, t_0, d_1 of round on round."""
    bars = subject.context.bars
    own, host = joint.effect.seat.bar, joint.meeting.host.bar
    sheet.given(
        "d_0", bars.depth[0, host], "length", "outside diameter of the chord", subject.key(host, "section")
    )
    sheet.given("t_0", bars.wall[0, host], "length", "its wall", subject.key(host, "section"))
    sheet.given(
        "d_1", bars.depth[0, own], "length", "outside diameter of the brace", subject.key(own, "section")
    )


def angle_said(joint: WallJoint) -> str:
    """Who stands on what, at what angle."""
    weld = joint.effect.weld
    return f"{weld.member} on {weld.onto} at {np.degrees(joint.meeting.angle):.1f} degrees."


def path_origin(joint: WallJoint) -> str:
    """Where `only_path` of the weld stands."""
    weld = joint.effect.weld
    return keyed(weld.path, weld.name, "only_path") + f", or that of {weld.member}"
