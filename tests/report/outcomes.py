"""Invented outcomes, put together by hand: the figures mean nothing, only how they are told matters."""

from types import SimpleNamespace
from typing import Any

import attrs
import numpy as np

from strength.case.model import (
    Assumed,
    Bolt,
    BoltSize,
    Case,
    Clamp,
    Load,
    Mass,
    Member,
    NotChecked,
    Point,
    Strike,
    Strut,
    Stud,
    Support,
    Warned,
    Weld,
    Wheel,
)
from strength.case.read_as import ReadAs
from strength.case.shape import Bar, Box, Flat, Rigid, Tube
from strength.checks.stresses import StressRow
from strength.checks.verdict import Row
from strength.report.mirrored import mirrored
from strength.run import Moved, Outcome
from strength.vehicle.sheet import Balanced, Limit, TowForce, WheelForce

G = 9806.65

LOADS = (
    Load(name="standing"),
    Load(name="full stop", severity="hard", braking=0.6 * G),
    Load(name="bend, left turn", severity="hard", cornering=0.45 * G),
    Load(name="bend, right turn", severity="hard", cornering=-0.45 * G),
    Load(name="stop in a bend, left turn", severity="hard", braking=0.4 * G, cornering=0.3 * G),
    Load(name="stop in a bend, right turn", severity="hard", braking=0.4 * G, cornering=-0.3 * G),
    Load(name="speed bump", severity="hard", vertical=2.5),
    Load(name="pothole, left wheel", severity="abuse", strike=Strike(wheel="front.left", up=3.0, back=1.5)),
    Load(name="pothole, right wheel", severity="abuse", strike=Strike(wheel="front.right", up=3.0, back=1.5)),
    Load(
        name="kerb taken sideways, left wheel",
        severity="abuse",
        strike=Strike(wheel="front.left", up=1.0, inward=1.5),
    ),
    Load(
        name="kerb taken sideways, right wheel",
        severity="abuse",
        strike=Strike(wheel="front.right", up=1.0, inward=1.5),
    ),
    Load(name="pulling away uphill", driving=0.25 * G),
    Load(name="stop downhill", severity="hard", braking=0.5 * G, vertical=0.995),
    Load(name="rider climbs on", vertical=1.3),
)
# how much each load asks of a part on its own side, and of one on the other side
ASKS = (
    (0.22, 0.22), (0.71, 0.71), (0.34, 0.66), (0.66, 0.34), (0.83, 1.0), (1.0, 0.83), (0.74, 0.74),
    (0.97, 0.21), (0.21, 0.97), (0.92, 0.19), (0.19, 0.92), (0.25, 0.25), (0.64, 0.64), (0.29, 0.29),
)  # fmt: skip


def _row(part: str, kind: str, load: str, u: float, **more: Any) -> Row:
    """A row whose demand and limit give the utilisation."""
    limit, unit = more.pop("limit", 140.0), more.pop("unit", "MPa")
    given = {"where": "", "in_range": True, "fails": "bends", "source": "own choice", "note": "", **more}
    return Row(
        part=part, kind=kind, load=load, demand=u * limit, limit=limit, unit=unit, utilisation=u, **given
    )


PARTS: tuple[tuple[str, str, float, dict[str, Any]], ...] = (
    ("lower-front-cup.left", "weld-throat", 1.34, {"fails": "parts", "where": "cup", "limit": 136.0}),
    ("lower-front-cup.left", "weld-toe", 0.91, {"fails": "parts", "where": "cup", "limit": 180.0}),
    ("lower-front.left", "yielding", 0.93, {"where": "12 mm from lower-ball.left", "limit": 140.7}),
    ("lower-front.left", "stability", 0.41, {"fails": "buckles", "limit": 1.0, "unit": "1"}),
    ("lower-rear.left", "yielding", 0.62, {"where": "at lower-rear.left", "limit": 140.7}),
    ("knuckle.left", "yielding", 0.71, {"where": "at knuckle-root.left", "limit": 149.7}),
    ("knuckle-axle.left", "yielding", 1.06, {"where": "axle root", "limit": 389.0}),
    ("knuckle-lower.left", "stud-bending", 0.84, {"where": "thread", "limit": 383.0}),
    ("knuckle-lower.left", "thread-strip", 0.33, {"fails": "parts", "unit": "N", "limit": 41200.0}),
    ("knuckle-upper.left", "stud-rocking", 0.52, {"where": "thread", "limit": 149.7}),
    ("lower-front-pivot.left", "bolt-shear", 0.24, {"fails": "parts", "unit": "N", "limit": 13920.0}),
    ("caliper-weld.left", "weld-throat", 0.66, {"fails": "parts", "limit": 144.0}),
    ("arm-clamp.left", "clamp-slip", 0.47, {"fails": "slips", "unit": "N*mm", "limit": 88000.0}),
    ("main-tube", "yielding", 0.79, {"where": "at seat-front", "limit": 140.7}),
    ("main-tube", "wall", 0.58, {"fails": "buckles", "unit": "1", "limit": 1.0}),
    ("outrigger", "chord-wall", 0.88, {"unit": "1", "limit": 1.0, "in_range": False}),
)


def sided(case_rows: list[Row]) -> tuple[Row, ...]:
    """Rows of left parts and their equals on the right under the mirrored load, worst first."""
    found = list(case_rows)
    found += [
        row._replace(
            part=mirrored(row.part), load=mirrored(row.load), where=row.where.replace(".left", ".right")
        )
        for row in case_rows
        if row.part.endswith(".left")
    ]
    return tuple(sorted(found, key=lambda row: -row.utilisation))


def rows() -> tuple[Row, ...]:
    """Parts over, thin, out of range and within; both sides alike."""
    left = []
    for part, kind, worst, more in PARTS:
        for load, (own, other) in zip(LOADS, ASKS, strict=True):
            asked = own if part.endswith(".left") else max(own, other)
            left.append(_row(part, kind, load.name, worst * asked, **more))
    return sided(left)


PLACES = {
    "pivot-front.left": (140.0, 150.0, 180.0),
    "pivot-rear.left": (-90.0, 155.0, 185.0),
    "ball.left": (20.0, 345.0, 165.0),
    "high.left": (12.0, 335.0, 345.0),
    "root.left": (15.0, 342.0, 250.0),
    "hub.left": (15.0, 400.0, 250.0),
    "shock-top.left": (20.0, 160.0, 420.0),
    "nose": (220.0, 0.0, 190.0),
    "tail": (-900.0, 0.0, 240.0),
    "rear-hub": (-1000.0, 0.0, 250.0),
}


def points() -> tuple[Point, ...]:
    """Places on both sides, all different."""
    found = [Point(name=name, at=at) for name, at in PLACES.items()]
    found += [
        Point(name=mirrored(name), at=(at[0], -at[1], at[2]))
        for name, at in PLACES.items()
        if name.endswith(".left")
    ]
    return tuple(found)


def other_side(part: Any) -> Any:
    """The same part on the other side."""
    names = {
        field: mirrored(value)
        for field in ("name", "start", "end", "member", "centre", "at")
        if isinstance(value := getattr(part, field, None), str) and value.endswith(".left")
    }
    return attrs.evolve(part, **names)


def case() -> Case:
    """The front of an invented three-wheeler, as much of it as a report names."""
    tube, steel = Tube(od=25.0, wall=2.0), "E235+N"
    members = [
        Member(
            name="lower-front.left", start="pivot-front.left", end="ball.left", shape=tube, material=steel,
        ),
        Member(name="lower-rear.left", start="pivot-rear.left", end="ball.left", shape=tube, material=steel),
        Member(
            name="knuckle.left", start="ball.left", end="high.left", shape=Flat(70.0, 16.0),
            material="6082-T651",
        ),
        Member(
            name="knuckle-axle.left", start="root.left", end="hub.left", shape=Bar(20.0),
            material="42CrMo4+QT",
        ),
        Member(name="step.left", start="root.left", end="high.left", shape=Rigid()),
    ]  # fmt: skip
    box = Box(50.0, 50.0, 3.0)
    welds = [
        Weld(
            name=name, member="lower-front.left", end="to", leg=3.0, filler="ER70S-6", process="tig",
            inset=inset,
        )
        for name, inset in (("lower-front-cup.left", 25.0), ("caliper-weld.left", 70.0))
    ]  # fmt: skip
    outrigger = attrs.evolve(welds[0], name="outrigger", member="main-tube", end="from", inset=0.0)
    size = BoltSize(kind="thread", text="M10", diameter=10.0)
    bolts = [
        Bolt(
            name="lower-front-pivot.left", member="lower-front.left", end="from", size=size, grade="8.8",
            axis=(1.0, 0.0, 0.0),
        )
    ]  # fmt: skip
    studs = [
        Stud(name=name, member="knuckle.left", end=end, size=size, grade="8.8", reach=20.0, engaged=16.0)
        for name, end in (("knuckle-lower.left", "from"), ("knuckle-upper.left", "to"))
    ]
    struts = [Strut(name="shock.left", start="shock-top.left", end="ball.left", stiffness=60.0)]
    wheels = [Wheel(name="front.left", centre="hub.left", radius=250.0, braked=True)]
    clamps = [
        Clamp(
            name="arm-clamp.left", member="knuckle-axle.left", end="to", diameter=20.0, bolt_count=2,
            bolt=size, grade="8.8",
        )
    ]  # fmt: skip

    def both(parts: list[Any]) -> tuple[Any, ...]:
        return (*parts, *map(other_side, parts))

    return Case(
        title="Bracken, front end",
        points=points(),
        members=(
            *both(members),
            Member(name="main-tube", start="nose", end="tail", shape=box, material="S235JRH"),
        ),
        struts=both(struts),
        supports=(Support(name="bench", at="tail", hold=(True,) * 6),),
        wheels=(*both(wheels), Wheel(name="rear", centre="rear-hub", radius=250.0, driven=True)),
        loads=LOADS,
        welds=(*both(welds), outrigger),
        bolts=both(bolts),
        studs=both(studs),
        clamps=both(clamps),
        masses=(Mass(name="rider", mass=80.0, at=(-500.0, 0.0, 700.0), carried_by=("nose", "tail")),),
        assumed=(
            Assumed(part="lower-front-cup.left", key="leg", value="2 mm"),
            Assumed(part="lower-front-cup.right", key="leg", value="2 mm"),
            Assumed(part="knuckle-axle.left", key="material", value="42CrMo4+QT"),
        ),
    )


def balanced(load: Load, number: int) -> Balanced:
    """Wheel forces of no meaning, different for every wheel and load."""
    wheels = tuple(
        WheelForce(name=name, force=(-10.0 * number, 25.5 * k - 30.0, 400.0 + 12.5 * number * k))
        for k, name in enumerate(("front.left", "front.right", "rear"))
    )
    return Balanced(
        name=load.name,
        severity=load.severity,
        lean=0.2 if load.cornering > 0.0 else -0.2 if load.cornering < 0.0 else 0.0,
        scaled_to=0.82 if load.name.startswith("bend") else 1.0,
        braking=load.braking,
        driving=load.driving,
        cornering=load.cornering,
        vertical=load.vertical,
        notes=("tips at 0.37 g",) if load.name.startswith("bend") else (),
        wheels=wheels,
        tows=(TowForce(name="eye", force=(1.5, -2.5, 3.5)),) if number == 0 else (),
    )


def _limits(what: str, figures: tuple[float, float, float], *, payload: bool) -> Limit:
    """A limit of no meaning: tips at, slides at, and an angle for slopes."""
    tips, slides, angle = figures
    if what.startswith("side slope"):
        return Limit(what=what, with_payload=payload, angle=angle, governs="tips")
    bend = what.startswith("corner")
    speed = tuple((f"{radius} m", 3.0 + tips + 0.2 * radius) for radius in (5, 10, 20)) if bend else ()
    return Limit(what=what, with_payload=payload, tips_at=tips, slides_at=slides, speed=speed, governs="tips")


LIMITS = tuple(
    _limits(what, figures, payload=payload)
    for payload, spare in ((True, 0.0), (False, 0.1))
    for what, figures in (
        ("corner left", (0.41 + spare, 0.8, 0.0)),
        ("corner right", (0.41 + spare, 0.8, 0.0)),
        ("brake", (0.71, 0.62, 0.0)),
        ("brake, 10 % descent", (0.61 + spare, 0.52, 0.0)),
        ("side slope left", (0.0, 0.0, 0.38 + spare)),
        ("side slope right", (0.0, 0.0, 0.36 + spare)),
    )
)


def outcome(**changes: Any) -> Outcome:
    """A whole outcome; `changes` replace what it holds."""
    given = changes.pop("case", None) or case()
    count = len(given.loads)
    bars = len(given.members) + len(given.struts)
    numbers = np.arange(1.0, count * bars * 12 + 1.0).reshape(1, count, bars, 2, 6)
    layout = SimpleNamespace(
        names=tuple(p.name for p in given.points), first=np.arange(bars), last=np.arange(bars)
    )
    response = SimpleNamespace(
        displacements=np.arange(count * len(given.points) * 6, dtype=float).reshape(1, count, -1, 6) / 7.0,
        forces=numbers,
        reactions=-np.arange(count * 6, dtype=float).reshape(1, count, 1, 6),
    )
    told = {
        "case": given,
        "loads": tuple(balanced(load, n) for n, load in enumerate(given.loads)),
        "layout": layout,
        "bars": SimpleNamespace(member_count=len(given.members)),
        "response": response,
        "rows": rows(),
        "stresses": tuple(
            StressRow(
                member=row.part, load=row.load, where=row.where, axial=-0.11 * row.demand,
                bending=0.87 * row.demand, shear=0.04 * row.demand, torsion=0.13 * row.demand,
                von_mises=row.demand,
            )
            for row in rows()
            if row.kind == "yielding"
        ),
        "not_checked": tuple(
            NotChecked(part=part, kind=kind, why=why)
            for part, kind, why in (
                ("knuckle-axle.left", "weld-throat", "nothing says how the axle is held"),
                ("knuckle-axle.right", "weld-throat", "nothing says how the axle is held"),
                ("lower-front-pivot.left", "bearing", "no plates are given"),
            )
        ),
        "warnings": (
            Warned(part="front.left", text="has a caliper but no brake"),
            Warned(part="front.right", text="has a caliper but no brake"),
        ),
        "read_as": (
            ReadAs("knuckle.left", "70 mm fore-and-aft, 16 mm across"),
            ReadAs("knuckle.right", "70 mm fore-and-aft, 16 mm across"),
        ),
        "movement": tuple(
            Moved(
                name=name, load=load.name, moved=(-0.4 * n, 0.3 * k, 1.7 * n + k),
                toe=0.001 * n * (1 - k), camber=-0.0007 * n - 0.001 * k,
            )
            for n, load in enumerate(given.loads)
            for k, name in enumerate(("front.left", "front.right", "rear"))
        ),
        "missing_loads": ("a bump",),
    }  # fmt: skip
    return Outcome(**{**told, **changes})
