"""The line of a weld by hand: from the forces through its plane to those per length where it is worst."""

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.case.model import Weld
from strength.checks.weld_groups import forces_through
from strength.checks.welds import WeldEffect, Worst, weld_effects
from strength.joints.draw import drawn
from strength.joints.fillet import Rule
from strength.joints.forms import Forms
from strength.joints.peak import peaks
from strength.joints.traction import Pull, pull
from strength.joints.weld_line import WeldLine, measured
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, along_words, keyed, write_forces

Array = NDArray[np.float64]
WEAK = 1e-9
LOOKED = "looked for along the whole line"


@attrs.frozen(kw_only=True, eq=False)
class Place:
    """The worst place of a line: from the middle of the weld plane [mm], and the line's direction there."""

    at: Array
    along: Array


def weld_of(subject: Subject) -> tuple[WeldEffect, int]:
    """The weld of a row and its number."""
    effects = weld_effects(subject.context)
    return next((effect, n) for n, effect in enumerate(effects) if effect.weld.name == subject.row.part)


def write_line(sheet: Sheet, subject: Subject, worst: Worst, effect: WeldEffect, number: int) -> Rule:
    """Everything from N to q_x, q_s, q_n at the worst place; returns the rule that counts there."""
    rule = worst.rules[int(worst.rule[0, subject.load])]
    line, forces = write_through(sheet, subject, effect, number)
    write_at(sheet, line, _place(line, forces, effect.weld, rule))
    return rule


def write_through(
    sheet: Sheet, subject: Subject, effect: WeldEffect, number: int, *, about: str = "xyz"
) -> tuple[WeldLine, Array]:
    """Forces through the weld's plane and the shape of its line; returns the line and them, (1, 1, 6).

    about: the axes about which the line's spread is asked for.
    """
    context, seat = subject.context, effect.seat
    every = tuple(one.seat for one in weld_effects(context))
    forces = forces_through(context, every)[:1, :, number]
    group = drawn((seat,), context.bars, cut=subject.limit_state, designs=1)[0]
    line = measured(group.pieces, group.cylinder)
    origin = along_words(subject, seat.bar, float(np.ravel(seat.plane)[0]))
    write_forces(sheet, subject, forces[0, subject.load], "012345", f"{origin}; through the weld's plane")
    _write_shape(sheet, subject, effect, line, about)
    return line, forces[:, [subject.load]]


def write_at(sheet: Sheet, line: WeldLine, place: Place) -> None:
    """From the forces to those per length at a place of the line."""
    _write_pull(sheet, line)
    _write_place(sheet, line, place)


def _write_shape(sheet: Sheet, subject: Subject, effect: WeldEffect, line: WeldLine, about: str) -> None:
    """Length, centroid and spread of the line."""
    weld = effect.weld
    key = keyed(weld.path, weld.name, "pattern")
    pieces = line.pieces
    cut = ", each free end shortened by a throat" if subject.limit_state else ""
    if line.cylinder is not None:
        source = f"{key}; integrated along the curve in which {weld.member} meets {weld.onto}"
    elif line.pieces.curved.any():
        source = f"{key}; the outline of {weld.member}"
    else:
        source = f"{key}; {pieces.span.size} straight lines{cut}"
    if line.cylinder is None and pieces.curved.all() and np.allclose(line.centroid[0], 0.0, atol=1e-9):
        radius = float(pieces.radius[0, 0])
        sheet.given("r", radius, "length", "radius of the weld's line", source)
        sheet.step("L", "2*pi*r", "length", "length of the line")
        sheet.step("S_xx", "2*pi*r^3", "modulus", "spread of the line about x_m, q^2 along it")
        for axis in about.replace("x", ""):
            sheet.step(f"S_{axis}{axis}", "pi*r^3", "modulus", f"spread about {axis}_m")
        return
    sheet.given("L", line.length[0], "length", "length of the line", source)
    for axis, value in zip("xyz", line.centroid[0], strict=True):
        if abs(value) > 1e-9 * line.length[0]:
            sheet.given(f"c_{axis}", value, "length", f"centroid of the line along {axis}_m", source)
    spread, scale = line.spread[0], float(np.abs(line.spread[0]).max())
    for i, j in ((0, 0), (1, 1), (2, 2), (0, 1), (0, 2), (1, 2)):
        if not {"xyz"[i], "xyz"[j]} <= set(about):
            continue
        if i == j or abs(spread[i, j]) > WEAK * scale:
            name = f"S_{'xyz'[i]}{'xyz'[j]}"
            what = "spread of the line: the integral of q^2 1 - q q^T about its centroid"
            sheet.given(name, spread[i, j], "modulus", what, source)


def _place(line: WeldLine, forces: Array, weld: Weld, rule: Rule) -> Place:
    """Where the rule is worst, and how the line runs there."""
    through = pull(line, forces, [weld], ("",))
    peak = peaks(line, through, [Forms(forms=rule.form[:1, None], scales=np.ones((1, 1)))])[0]
    return place_of(line, through, peak.place[0, 0], peak.parts[0, 0])


def place_of(line: WeldLine, through: Pull, at: Array, parts: Array) -> Place:
    """A place (3,) of the line with the line's direction, by the parts q_x, q_s, q_n (3,) found there."""
    best, along = np.inf, np.array([0.0, 1.0, 0.0])
    for piece in range(line.pieces.span.size):
        direction = _direction(line, piece, at)
        if direction is None:
            continue
        q = through.direct[0, 0] + np.cross(through.spin[0, 0], at - line.centroid[0])
        missed = float(np.abs(_parts(q, direction) - parts).max())
        if missed < best:
            best, along = missed, direction
    return Place(at=at, along=along)


def _direction(line: WeldLine, piece: int, at: Array) -> Array | None:
    """Unit direction of the line on one of its pieces at a place; None where that piece is elsewhere."""
    pieces = line.pieces
    base, delta = pieces.base[0, piece], pieces.delta[0, piece]
    off = at[1:] - base
    if pieces.span[piece] == 0.0:
        square = float(delta @ delta)
        if square <= 0.0:
            return None
        share = float(np.clip(off @ delta / square, 0.0, 1.0))
        missed, flat = float(np.linalg.norm(off - share * delta)), delta
    else:
        missed = abs(float(np.linalg.norm(off)) - float(pieces.radius[0, piece]))
        turn = (np.arctan2(off[1], off[0]) - pieces.first[0, piece]) % (2.0 * np.pi)
        span = float(pieces.span[piece])
        slack = 1e-6
        if not (turn <= span + slack or turn >= 2.0 * np.pi - slack):
            return None
        flat = np.array([-off[1], off[0]]) * np.sign(span)
    if missed > 1e-6 * max(1.0, float(np.linalg.norm(at))):
        return None
    if line.cylinder is None:
        run = np.array([0.0, *flat])
    else:
        one = [np.array([[[value]]]) for value in (at[1], at[2], flat[0], flat[1])]
        rise = float(np.ravel(line.cylinder.lift(*one)[1])[0])
        run = np.array([rise, *flat])
    size = float(np.linalg.norm(run))
    return run / size if size > 0.0 else None


def _parts(q: Array, s: Array) -> Array:
    """Parts of a force per length along the member, along the weld and across."""
    inside, tall = q[1] * s[1] + q[2] * s[2], np.sqrt(max(1.0 - s[0] ** 2, 1e-30))
    return np.array(
        [q[0] * tall - s[0] * inside / tall, q[0] * s[0] + inside, (q[1] * s[2] - q[2] * s[1]) / tall]
    )


def _write_pull(sheet: Sheet, line: WeldLine) -> None:
    """Moments about the centroid and the turn w that balances them: S w = M."""
    arms = [axis for axis in "xyz" if f"c_{axis}" in sheet]
    for axis, name, formula in (
        ("x", "T", (("y", "-", "V_z"), ("z", "+", "V_y"))),
        ("y", "M_y", (("z", "-", "N"), ("x", "+", "V_z"))),
        ("z", "M_z", (("x", "-", "V_y"), ("y", "+", "N"))),
    ):
        text = name + "".join(f" {sign} c_{arm}*{force}" for arm, sign, force in formula if arm in arms)
        sheet.step(f"M_{axis}c", text, "moment", f"moment about {axis}_m at the line's centroid")
    spread = line.spread[0]
    scale = float(np.abs(spread).max())
    size, axes = np.linalg.eigh((spread + spread.T) / 2.0)
    if size[0] <= WEAK * size[-1]:
        sheet.say("One straight line: it turns about no axis of its own, and S is alike across it.")
        weak = axes[:, 0]
        sheet.given(
            "S", float(size[-1]), "modulus", "spread of a straight line across it", "the greatest of S"
        )
        for number, axis in enumerate("xyz"):
            if abs(weak[number]) > 1.0 - 1e-9:
                sheet.given(f"w_{axis}", 0.0, "stress", "turn about the line itself", "it carries none")
            else:
                sheet.step(f"w_{axis}", f"M_{axis}c/S", "stress", f"turn about {axis}_m")
        return
    mixed = [(i, j) for i, j in ((0, 1), (0, 2), (1, 2)) if abs(spread[i, j]) > WEAK * scale]
    if not mixed:
        for axis in "xyz":
            sheet.step(
                f"w_{axis}", f"M_{axis}c/S_{axis}{axis}", "stress", f"turn about {axis}_m: force per area"
            )
        return
    _solve(sheet, mixed)


def _solve(sheet: Sheet, mixed: list[tuple[int, int]]) -> None:
    """S w = M for w, by determinants (Cramer's rule)."""
    names = {
        (i, j): f"S_{'xyz'[min(i, j)]}{'xyz'[max(i, j)]}"
        if i == j or (min(i, j), max(i, j)) in mixed
        else "0"
        for i in range(3)
        for j in range(3)
    }
    matrix = [[names[i, j] for j in range(3)] for i in range(3)]
    sheet.say("S w = M, three equations with three unknowns, solved by determinants.")
    sheet.step("D", _determinant(matrix), "modulus^3", "determinant of S")
    for column, axis in enumerate("xyz"):
        replaced = [[f"M_{'xyz'[i]}c" if j == column else matrix[i][j] for j in range(3)] for i in range(3)]
        sheet.step(f"w_{axis}", f"({_determinant(replaced)})/D", "stress", f"turn about {axis}_m")


def _determinant(m: list[list[str]]) -> str:
    """A determinant of three, written out; products with a nothing fall out."""
    text = ""
    for sign, i, j, k in (
        ("+", 0, 1, 2),
        ("+", 1, 2, 0),
        ("+", 2, 0, 1),
        ("-", 2, 1, 0),
        ("-", 1, 0, 2),
        ("-", 0, 2, 1),
    ):
        factors = (m[0][i], m[1][j], m[2][k])
        if "0" in factors:
            continue
        product = "*".join(factors)
        text += f" {sign} {product}" if text else ("-" if sign == "-" else "") + product
    return text or "0"


def _write_place(sheet: Sheet, line: WeldLine, place: Place) -> None:
    """Force per length there: q = F/L + w x r, and its parts."""
    arm = place.at - line.centroid[0]
    for axis, value in zip("xyz", arm, strict=True):
        sheet.given(
            f"r_{axis}", value, "length", f"the worst place, from the centroid along {axis}_m", LOOKED
        )
    sheet.step("q_1", "N/L + w_y*r_z - w_z*r_y", "flow", "force per length along x_m there")
    sheet.step("q_2", "V_y/L + w_z*r_x - w_x*r_z", "flow", "force per length along y_m there")
    sheet.step("q_3", "V_z/L + w_x*r_y - w_y*r_x", "flow", "force per length along z_m there")
    for axis, value in zip("xyz", place.along, strict=True):
        sheet.given(f"s_{axis}", value, "1", f"direction of the line there, along {axis}_m", LOOKED)
    if line.cylinder is None:
        sheet.step("q_x", "q_1", "flow", "along the member")
        sheet.step("q_s", "q_2*s_y + q_3*s_z", "flow", "along the weld")
        sheet.step("q_n", "q_2*s_z - q_3*s_y", "flow", "across both")
        return
    sheet.step("s_t", "sqrt(1 - s_x^2)", "1", "the line's part across the member")
    sheet.step("q_t", "q_2*s_y + q_3*s_z", "flow", "along the line, in the plane across the member")
    sheet.step("q_x", "q_1*s_t - s_x*q_t/s_t", "flow", "along the member's axis made normal to the line")
    sheet.step("q_s", "q_1*s_x + q_t", "flow", "along the weld")
    sheet.step("q_n", "(q_2*s_z - q_3*s_y)/s_t", "flow", "across both")
