"""A skew part with given forces at its ends, and joints on it; metals as in `loaded`."""

from collections.abc import Sequence

import numpy as np

from strength.case.model import Basis, Bolt, BoltSize, Case, Clamp, Plate, Sleeve, Stud
from strength.case.shape import Flat, Shape, Tube
from strength.case.sizes import bolt_size
from strength.checks.bearing import bearing
from strength.checks.bolt_bending import bolt_bending
from strength.checks.bolt_shear import bolt_shear
from strength.checks.bolt_tension import bolt_combined, bolt_tension
from strength.checks.clamps import clamp_slip
from strength.checks.context import Context
from strength.checks.net_section import net_section
from strength.checks.pull_through import pull_through
from strength.checks.rod_end import rod_end
from strength.checks.sleeve_bearing import sleeve_bearing, sleeve_wall
from strength.checks.sleeve_bolt import sleeve_bolt
from strength.checks.stud_bending import stud_bending
from strength.checks.stud_rocking import stud_rocking
from strength.checks.tear_out import tear_out
from strength.checks.thread_strip import thread_strip
from strength.checks.unchecked_bolts import unchecked_bolts
from strength.checks.unchecked_clamps import unchecked_clamps
from strength.checks.unchecked_sleeves import unchecked_sleeves
from strength.checks.unchecked_studs import unchecked_studs
from strength.checks.verdict import Row
from tests.checks.loaded import case_of, context_of, member

CHECKS = (
    bolt_shear,
    bolt_tension,
    bolt_combined,
    pull_through,
    bearing,
    tear_out,
    net_section,
    bolt_bending,
    stud_bending,
    stud_rocking,
    thread_strip,
    rod_end,
    sleeve_bearing,
    sleeve_wall,
    sleeve_bolt,
    clamp_slip,
)
TELLERS = (unchecked_bolts, unchecked_studs, unchecked_sleeves, unchecked_clamps)
START, END = (40.0, -25.0, 110.0), (220.0, 75.0, 310.0)
UP = (0.2, -0.5, 0.9)


def across_flat(start: Sequence[float] = START, end: Sequence[float] = END, up: object = UP) -> np.ndarray:
    """Rows x_m, y_m, z_m of a part, worked out by projecting `up`."""
    x = np.subtract(end, start)
    x = x / np.linalg.norm(x)
    z = np.array(up) - (x @ np.array(up)) * x
    z = z / np.linalg.norm(z)
    return np.array([x, np.cross(z, x), z])


def size(text: str) -> BoltSize:
    """A size as typed."""
    return bolt_size(text)


def plate(thickness: float, material: str = "steel", edge: float = 17.0, hole: float = 10.2) -> Plate:
    """A plate that a bolt goes through."""
    return Plate(thickness=thickness, material=material, edge=edge, hole=hole)


def bolt(text: str = "M10", **given: object) -> Bolt:
    """A bolt at `to` of `arm` across the flat, unless said otherwise."""
    plain = {
        "name": "bolt",
        "member": "arm",
        "end": "to",
        "size": size(text),
        "grade": "8.8",
        "axis": tuple(across_flat()[1]),
        "thread_in_shear": text.startswith("M"),
    }
    return Bolt(**(plain | given))


def stud(text: str = "M12", **given: object) -> Stud:
    """A stud at `to` of `arm`, along it, unless said otherwise."""
    plain = {
        "name": "stud",
        "member": "arm",
        "end": "to",
        "size": size(text),
        "grade": "8.8",
        "reach": 22.0,
        "engaged": 18.0,
    }
    return Stud(**(plain | given))


def sleeve(**given: object) -> Sleeve:
    """A sleeve at `to` of `arm`."""
    plain = {"name": "nose", "member": "arm", "end": "to", "outer": Tube(46.0, 2.5), "overlap": 70.0}
    return Sleeve(**(plain | given))


def clamp(text: str = "M6", **given: object) -> Clamp:
    """A clamp of two bolts at `to` of `arm`."""
    plain = {
        "name": "grip",
        "member": "arm",
        "end": "to",
        "diameter": 40.0,
        "bolt_count": 2,
        "bolt": size(text),
        "grade": "8.8",
    }
    return Clamp(**(plain | given))


def arm(
    forces: object,
    *,
    shape: Shape | None = None,
    material: str = "steel",
    severities: Sequence[str] | None = None,
    basis: Basis | None = None,
    only_path: bool = False,
    start: Sequence[float] = START,
    end: Sequence[float] = END,
    up: object = UP,
    amplified: Sequence[float] | None = None,
    **parts: object,
) -> Context:
    """A part `arm` with N Vy Vz T My Mz (loads, 6), or at both ends (loads, 2, 6); parts: fields of Case."""
    loads = np.array(forces, dtype=float)
    if loads.ndim == 1:
        loads = loads[None]
    if loads.ndim == 2:
        loads = np.repeat(loads[:, None], 2, axis=1)
    own = member(
        "arm",
        "a",
        "b",
        shape or Flat(60.0, 8.0),
        material,
        up=tuple(up),
        only_path=only_path,
        path="members.arm",
    )
    more = parts.pop("members", ())
    points = {"a": start, "b": end} | parts.pop("points", {})
    case: Case = case_of(points, basis=basis or Basis(), members=(own, *more), **parts)
    return context_of(case, {"arm": loads.tolist()}, severities or ("routine",) * len(loads), amplified)


def rows(context: Context) -> dict[tuple[str, int], Row]:
    """All rows of joints by kind and number of the load."""
    found = {}
    for check in CHECKS:
        for verdict in check(context):
            for row in verdict.rows(context.load_names):
                found[row.kind, context.load_names.index(row.load)] = row
    return found


def skipped(context: Context) -> dict[str, list[str]]:
    """What is not checked: reasons by part."""
    found: dict[str, list[str]] = {}
    for tell in TELLERS:
        for one in tell(context):
            found.setdefault(one.part, []).append(f"{one.kind}: {one.why}")
    return found
