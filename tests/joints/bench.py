"""A test bench for welds: a part of any section, welded at one end, with given forces through it."""

from typing import TYPE_CHECKING, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.case.model import Basis, Case, Member, Plate, Point, Weld
from strength.case.shape import Shape
from strength.checks.context import Context
from strength.checks.factors import factors_for
from strength.frame.layout import lay_out
from strength.frame.response import Response
from strength.library import Filler, Metal, Strength
from strength.sections.measured import measure
from strength.vehicle.sheet import Balanced

if TYPE_CHECKING:
    from strength.checks.stations import Stations

Array = NDArray[np.float64]


def metal(name: str, kind: str = "steel", **given: object) -> Metal:
    """A metal with one row of strengths; keys of Metal and Strength alike."""
    row = {
        "yield_": 235.0,
        "ultimate": 360.0,
        "yield_welded": 235.0,
        "ultimate_welded": 360.0,
        "elongation": 0.25,
    }
    row |= {key: given.pop(key) for key in list(given) if key in attrs.fields_dict(Strength)}
    modulus = 70000.0 if kind == "aluminium" else 210000.0
    whole = {
        "modulus": modulus,
        "poisson": 0.3,
        "shear_modulus": modulus / 2.6,
        "density": 7.85e-6,
        "weldable": True,
        "buckling_curve": "c",
    } | given
    return Metal(name=name, kind=kind, rows=(Strength(**row),), **whole)


S235 = metal("S235", beta_w=0.80, family="S235")
S275 = metal(
    "S275",
    beta_w=0.85,
    family="S275",
    yield_=275.0,
    ultimate=410.0,
    yield_welded=275.0,
    ultimate_welded=410.0,
)
S355 = metal(
    "S355",
    beta_w=0.90,
    family="S355",
    yield_=355.0,
    ultimate=490.0,
    yield_welded=355.0,
    ultimate_welded=490.0,
)
ALUMINIUM = metal(
    "6082-T6", "aluminium", family="6082", series="6xxx", yield_=260.0, ultimate=310.0, yield_welded=125.0,
    ultimate_welded=185.0, elongation=0.10,
)  # fmt: skip
METALS = {m.name: m for m in (S235, S275, S355, ALUMINIUM)}
FILLERS = {
    "E70": Filler(name="E70", kind="steel", strength=482.633),  # 70 ksi
    "G42": Filler(name="G42", kind="steel", strength=500.0),
    "5356": Filler(name="5356", kind="aluminium", strength=240.0, by_parent={"6082": 210.0, "6060": 160.0}),
    "bronze": Filler(name="bronze", kind="bronze", strength=345.0),
}

START, ALONG, UP = np.array([120.0, -70.0, 310.0]), np.array([0.48, 0.6, 0.64]), (-0.3, 0.2, 0.9)


def weld(**given: object) -> Weld:
    """A weld at the `from` end of `leg`, unless said otherwise."""
    base = {"name": "seam", "member": "leg", "end": "from", "leg": 4.0, "filler": "G42", "process": "mig"}
    return Weld(**(base | given))


def bench(
    shape: Shape,
    forces: object,
    *welds: Weld,
    material: str = "S235",
    basis: Basis | None = None,
    severity: str = "hard",
    metals: dict[str, Metal] | None = None,
    fillers: dict[str, Filler] | None = None,
    only_path: bool = False,
    length: float = 400.0,
    host: Shape | None = None,
    host_material: str = "S235",
    host_forces: object = None,
    host_direction: Array | None = None,
    host_up: tuple[float, float, float] | None = None,
    others: tuple[tuple[str, Shape, Array], ...] = (),
    start: Array = START,
    along: Array = ALONG,
    up: tuple[float, float, float] = UP,
) -> Context:
    """A skew member `leg`, N Vy Vz T My Mz (loads, 6) through all of it; `host`: a member across its start.

    others: further members from the same start: name, shape and direction.
    """
    loads = np.atleast_2d(np.array(forces, dtype=float))
    points = [Point(name="a", at=tuple(start)), Point(name="b", at=tuple(start + length * along))]
    members = [
        Member(
            name="leg",
            start="a",
            end="b",
            shape=shape,
            material=material,
            up=up,
            only_path=only_path,
            path="members.leg",
        )
    ]
    if host is not None:
        direction = np.array([0.8, -0.64, 0.0]) if host_direction is None else host_direction
        direction = direction / np.linalg.norm(direction)
        points += [
            Point(name="h0", at=tuple(start - 250.0 * direction)),
            Point(name="h1", at=tuple(start + 350.0 * direction)),
        ]
        members.append(
            Member(
                name="host",
                start="h0",
                via=("a",),
                end="h1",
                shape=host,
                material=host_material,
                up=host_up,
                path="members.host",
            )
        )
    for name, form, direction in others:
        points.append(Point(name=f"{name}-end", at=tuple(start + length * direction)))
        members.append(Member(name=name, start="a", end=f"{name}-end", shape=form, material=material))
    case = Case(
        title="Bracken bench",
        basis=basis or Basis(),
        points=tuple(points),
        members=tuple(members),
        welds=welds,
        metals=METALS | (metals or {}),
        fillers=FILLERS | (fillers or {}),
    )
    layout, bars = lay_out(case), measure(case)
    inside = np.zeros((1, loads.shape[0], layout.bar.size, 2, 6))
    inside[:, :, 0] = loads[None, :, None]
    if host_forces is not None:
        inside[:, :, 1:3] = np.array(host_forces, dtype=float).reshape(1, -1, 2, 1, 6)
    response = Response(
        displaced=lambda: np.zeros((1, loads.shape[0], len(points), 6)),
        forces=inside,
        reactions=np.zeros((1, loads.shape[0], 0, 6)),
    )
    sheet = tuple(
        Balanced(
            name=f"load {n}", severity=severity, lean=0.0, scaled_to=1.0, braking=0.0, driving=0.0,
            cornering=0.0, vertical=1.0, notes=(), wheels=(),
        )
        for n in range(loads.shape[0])
    )  # fmt: skip
    return Context(
        case=case,
        loads=sheet,
        layout=layout,
        bars=bars,
        response=response,
        stations=cast("Stations", None),
        factors=factors_for(case.basis, tuple(load.severity for load in sheet)),
        amplified=np.ones((1, loads.shape[0])),
        alpha=np.full((1, loads.shape[0]), np.inf),
    )


LIMIT_STATE = Basis(method="limit-state")
PLATE = Plate(thickness=6.0, material="S235")
