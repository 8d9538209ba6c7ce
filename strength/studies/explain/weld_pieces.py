"""Short pieces of a weld that turns about a centre, each with the force it carries as the group parts."""

from strength.checks.welds import WeldEffect
from strength.joints.in_plane import PIECES, short_pieces
from strength.joints.ultimate import SHEAR, THROAT
from strength.joints.weld_line import WeldLine
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, keyed
from strength.studies.explain.table import Column
from strength.studies.explain.weld_strength import write_share

STRETCHES = 24  # at most so many are shown
LAW = (
    "Every piece moves square to its radius rho from the centre, and the farther the more: by k_t*rho. k_t "
    "is as great as it can be before the first piece ruptures, the least D_u/rho of all. A piece carries "
    "more across than along (theta, in degrees: from the weld's line to its movement), and the most at the "
    "movement D_m; p is its movement over that (Lesik and Kennedy 1990, in AISC 360-16 J2.4)."
)
SOURCE = "AISC 360-16 J2.4"
OFF_Y, OFF_Z = "(y - y_0)", "(z - z_0)"
ANGLE = f"180/pi*atan2(abs({OFF_Y}*s_y + {OFF_Z}*s_z), abs({OFF_Y}*s_z - {OFF_Z}*s_y))"
COLUMNS = (
    Column(symbol="y", dimension="length", what="middle of the piece along y_m"),
    Column(symbol="z", dimension="length", what="middle of the piece along z_m"),
    Column(symbol="l", dimension="length", what="length of the piece"),
    Column(symbol="s_y", dimension="1", what="direction of the weld's line there, along y_m"),
    Column(symbol="s_z", dimension="1", what="direction of the weld's line there, along z_m"),
    Column(
        symbol="rho",
        dimension="length",
        what="radius from the centre",
        formula=f"hypot({OFF_Y[1:-1]}, {OFF_Z[1:-1]})",
    ),
    Column(symbol="theta", dimension="1", what="angle of movement to weld, in degrees", formula=ANGLE),
    Column(
        symbol="D_m",
        dimension="length",
        what="movement at its greatest force (equation J2-8)",
        formula="0.209*(theta + 2)^-0.32*leg",
    ),
    Column(
        symbol="D_u",
        dimension="length",
        what="movement at rupture (equation J2-9)",
        formula="min(1.087*(theta + 6)^-0.65, 0.17)*leg",
    ),
    Column(
        symbol="turn",
        dimension="1",
        what="turn at which it ruptures, rad; k_t is the least",
        formula="D_u/rho",
        gathered="least",
        whole="k_t",
    ),
    Column(symbol="p", dimension="1", what="its movement over D_m", formula="k_t*rho/D_m"),
    Column(
        symbol="R",
        dimension="force",
        what="force it carries (equation J2-7)",
        formula=f"k_F*f_F*{THROAT:g}*leg*l*(1 + 0.5*sin(theta*pi/180)^1.5)*max(p*(1.9 - 0.9*p), 0)^0.3",
    ),
    Column(
        symbol="R_y",
        dimension="force",
        what="its part along y_m",
        formula=f"-R*{OFF_Z}/rho",
        gathered="sum",
        whole="sum_y",
    ),
    Column(
        symbol="R_z",
        dimension="force",
        what="its part along z_m",
        formula=f"R*{OFF_Y}/rho",
        gathered="sum",
        whole="sum_z",
    ),
    Column(
        symbol="R_M",
        dimension="moment",
        what="its moment about the centre",
        formula="R*rho",
        gathered="sum",
        whole="sum_M",
    ),
)


def write_pieces(sheet: Sheet, subject: Subject, effect: WeldEffect, line: WeldLine) -> None:
    """k_t, and the sums sum_y, sum_z, sum_M of all pieces; y_0, z_0 and leg stand on the sheet."""
    weld = effect.weld
    write_share(sheet, subject, weld, SHEAR, SOURCE)
    middles, along, lengths = short_pieces(line, 0)
    given = {"y": middles[:, 0], "z": middles[:, 1], "l": lengths, "s_y": along[:, 0], "s_z": along[:, 1]}
    sheet.say(LAW)
    lines = lengths.size // PIECES
    sheet.table(
        f"The weld in {lengths.size} pieces, {PIECES} of each of its lines",
        keyed(weld.path, weld.name, "pattern"),
        COLUMNS,
        {symbol: values.tolist() for symbol, values in given.items()},
        _stretch(lines),
    )


def _stretch(lines: int) -> int:
    """Pieces of a stretch, so that not too many are shown: a part of a line, or all of it."""
    return next((per for per in (20, 30, 40, 60) if lines * PIECES // per <= STRETCHES), PIECES)
