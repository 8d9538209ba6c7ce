"""Random valid cases: vehicles on their wheels and frames on their supports. Seeded, invented numbers."""

import numpy as np

from strength.case.model import Case, HandForce, Load, Mass, Member, Point, Strike, Strut, Support, Tow, Wheel
from strength.case.shape import Bar, Box, Flat, Rigid, Tube
from strength.library import Metal, Strength

STEEL = Metal(
    name="steel",
    kind="steel",
    modulus=210e3,
    poisson=0.3,
    shear_modulus=81e3,
    density=7.85e-6,
    weldable=True,
    buckling_curve="c",
    rows=(Strength(yield_=235.0, ultimate=360.0, yield_welded=235.0, ultimate_welded=360.0),),
    own=True,
)
G = 9806.65


def vehicle(seed):
    """A rigid vehicle: points for wheels and masses, all carried, no members."""
    rng = np.random.default_rng(seed)
    wheels = int(rng.integers(3, 6))
    length, track = rng.uniform(900, 1600), rng.uniform(500, 1000)
    base = [(0, track / 2), (0, -track / 2), (-length, 0)]
    if wheels >= 4:
        base = [(0, track / 2), (0, -track / 2), (-length, 0.45 * track), (-length, -0.4 * track)]
    if wheels == 5:
        base.append((-1.6 * length, rng.uniform(-100, 100)))
    points, made = [], []
    for k, (x, y) in enumerate(base):
        radius = rng.uniform(200, 330)
        points.append(Point(name=f"hub{k}", at=(x + rng.uniform(-30, 30), y, radius)))
        tilt = rng.normal(0, 0.05, 3) + np.array([0, 1, 0])
        points.append(Point(name=f"caliper{k}", at=(x - 60, y * 0.9, radius + rng.uniform(20, 70))))
        made.append(
            Wheel(
                name=f"wheel{k}",
                centre=f"hub{k}",
                radius=radius,
                axle=tuple(tilt / np.linalg.norm(tilt)),
                braked=k < 2 or rng.random() < 0.3,
                driven=k == len(base) - 1,
                caliper=f"caliper{k}" if k < 2 and rng.random() < 0.6 else None,
                grip=rng.uniform(0.5, 0.9),
            )
        )
    masses = []
    for k in range(int(rng.integers(2, 5))):
        names = []
        for n in range(int(rng.integers(1, 5))):
            names.append(f"seat{k}-{n}")
            points.append(Point(name=names[-1], at=tuple(rng.uniform((-length, -200, 200), (0, 200, 500)))))
        masses.append(
            Mass(
                name=f"mass{k}",
                mass=rng.uniform(5, 90),
                at=(
                    rng.uniform(-0.7, -0.15) * length,
                    rng.uniform(-40, 40),
                    rng.uniform(300, 800),
                ),
                carried_by=tuple(names),
                gyration=rng.choice([0.0, rng.uniform(50, 300)]) if k else 80.0,
            )
        )
    towed = wheels == 4 and rng.random() < 0.5
    tows = ()
    if towed:
        points.append(
            Point(name="eye", at=(rng.uniform(300, 700), rng.uniform(-30, 30), rng.uniform(200, 500)))
        )
        tows = (Tow(name="eye", at="eye"),)
    leaning = 0.0 if towed else rng.choice([0.0, rng.uniform(0.1, 0.5)])
    loads = [
        Load(name="standing"),
        Load(name="bump", vertical=rng.uniform(1.2, 3)),
        Load(name="stop", braking=rng.uniform(0.2, 0.9) * G, severity="hard"),
        Load(name="pull away", driving=rng.uniform(0.05, 0.4) * G),
        Load(name="bend", cornering=rng.choice([-1, 1]) * rng.uniform(0.1, 0.9) * G),
        Load(
            name="stop in a bend",
            braking=rng.uniform(0.1, 0.6) * G,
            cornering=rng.choice([-1, 1]) * rng.uniform(0.1, 0.6) * G,
            vertical=rng.uniform(0.8, 1.5),
        ),
        Load(
            name="pothole",
            severity="abuse",
            strike=Strike(wheel="wheel0", up=3.0, back=1.3),
            braking=rng.uniform(0, 0.3) * G,
        ),
        Load(name="kerb", severity="abuse", strike=Strike(wheel="wheel1", up=1.4, back=0.2, inward=1.6)),
        Load(
            name="pushed",
            forces=(HandForce(at="hub1", force=(120.0, -340.0, 210.0), moment=(9e3, 2e3, -4e3)),),
        ),
    ]
    if wheels == 5:
        loads.append(Load(name="one off", off_ground=("wheel4",), cornering=0.15 * G))
    return Case(
        title="random vehicle",
        leaning=float(leaning),
        points=tuple(points),
        wheels=tuple(made),
        masses=tuple(masses),
        tows=tows,
        loads=tuple(loads),
        metals={"steel": STEEL},
    )


def _shape(rng):
    pick = rng.integers(4)
    if pick == 0:
        od = rng.uniform(18, 45)
        return Tube(od=od, wall=rng.uniform(0.05, 0.2) * od)
    if pick == 1:
        return Bar(diameter=rng.uniform(10, 25))
    if pick == 2:
        return Box(depth=rng.uniform(30, 60), width=rng.uniform(20, 45), wall=rng.uniform(1.5, 3))
    return Flat(width=rng.uniform(30, 70), thickness=rng.uniform(5, 14))


def frame(seed):
    """A supported space frame with releases, struts, rigid parts and hand loads."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(5, 9))
    spots = []
    while len(spots) < count:
        spot = rng.uniform(-400, 400, 3)
        if all(np.linalg.norm(spot - s) > 150 for s in spots):
            spots.append(spot)
    points = [Point(name=f"p{k}", at=tuple(s)) for k, s in enumerate(spots)]
    members, struts = [], []
    for k in range(1, count):
        j = int(rng.integers(0, k))
        shape = Rigid() if rng.random() < 0.15 else _shape(rng)
        via = ()
        if rng.random() < 0.4:
            t = rng.uniform(0.3, 0.7)
            points.append(Point(name=f"v{k}", at=tuple((1 - t) * spots[j] + t * spots[k])))
            via = (f"v{k}",)
        up = tuple(rng.normal(size=3)) if rng.random() < 0.5 else None
        members.append(
            Member(name=f"m{k}", start=f"p{j}", end=f"p{k}", via=via, shape=shape, material="steel", up=up)
        )
    for k in range(int(rng.integers(1, 4))):
        a, b = rng.choice(count, 2, replace=False)
        kind = rng.choice(["ball", "hinge", "fixed"])
        hinge = tuple(rng.normal(size=3)) if kind == "hinge" else None
        members.append(
            Member(
                name=f"x{k}",
                start=f"p{a}",
                end=f"p{b}",
                shape=_shape(rng),
                material="steel",
                from_end=str(kind),
                to_end=str(rng.choice(["fixed", "ball"])),
                hinge_axis=hinge,
            )
        )
    for k in range(int(rng.integers(0, 3))):
        a, b = rng.choice(count, 2, replace=False)
        kind = rng.integers(3)
        struts.append(
            Strut(
                name=f"s{k}",
                start=f"p{a}",
                end=f"p{b}",
                stiffness=rng.uniform(20, 200) if kind == 0 else None,
                shape=Tube(od=14.0, wall=1.5) if kind == 1 else None,
                material="steel" if kind == 1 else "",
            )
        )
    supports = [Support(name="s0", at="p0", hold=(True,) * 6)]
    if rng.random() < 0.6:
        supports.append(
            Support(name="s1", at=f"p{count - 1}", hold=tuple(bool(b) for b in rng.random(6) < 0.4))
        )
    loads = tuple(
        Load(
            name=f"load{n}",
            forces=tuple(
                HandForce(
                    at=f"p{int(rng.integers(1, count))}",
                    force=tuple(rng.normal(0, 500, 3)),
                    moment=tuple(rng.normal(0, 2e4, 3)),
                )
                for _ in range(2)
            ),
        )
        for n in range(3)
    )
    return Case(
        title="random frame",
        points=tuple(points),
        members=tuple(members),
        struts=tuple(struts),
        supports=tuple(supports),
        loads=loads,
        metals={"steel": STEEL},
    )
