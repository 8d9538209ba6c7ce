"""Cases whose internal forces are set by hand, so that checks are tested without the frame's solution."""

from collections.abc import Mapping, Sequence

import attrs
import numpy as np

from strength.case.model import Basis, Case, Member, Point, Weld
from strength.case.shape import Shape
from strength.checks.context import Context
from strength.checks.factors import factors_for
from strength.checks.stations import place_stations
from strength.checks.verdict import Row, Verdict
from strength.frame.layout import lay_out
from strength.frame.response import Response
from strength.joints.heat import heat_lengths
from strength.library import Metal, Strength
from strength.sections import measure
from strength.vehicle.sheet import Balanced

# invented metals with round figures; the properties that matter differ from one another
STEEL = Metal(
    name="steel",
    kind="steel",
    modulus=210e3,
    poisson=0.3,
    shear_modulus=80e3,
    density=7.85e-6,
    weldable=True,
    buckling_curve="c",
    rows=(
        Strength(yield_=240.0, ultimate=370.0, yield_welded=240.0, ultimate_welded=370.0, elongation=0.22),
    ),
)
BRITTLE = attrs.evolve(
    STEEL,
    name="brittle",
    rows=(Strength(yield_=600.0, ultimate=700.0, yield_welded=None, ultimate_welded=None, elongation=0.09),),
)
UNKNOWN = attrs.evolve(
    STEEL,
    name="unknown",
    rows=(Strength(yield_=600.0, ultimate=700.0, yield_welded=None, ultimate_welded=None),),
)
LIGHT = Metal(
    name="light",
    kind="aluminium",
    modulus=70e3,
    poisson=0.33,
    shear_modulus=27e3,
    density=2.7e-6,
    weldable=True,
    buckling_curve="A",
    series="6xxx",
    rows=(
        Strength(yield_=255.0, ultimate=300.0, yield_welded=125.0, ultimate_welded=185.0, elongation=0.10),
    ),
)
METALS = {metal.name: metal for metal in (STEEL, BRITTLE, UNKNOWN, LIGHT)}

Ends = Sequence[Sequence[float]]


def member(name: str, start: str, end: str, shape: Shape, material: str = "steel", **rest: object) -> Member:
    """A member; `rest` are fields of `Member`."""
    return attrs.evolve(Member(name=name, start=start, end=end, shape=shape, material=material), **rest)


def weld(name: str, part: str, end: str, **rest: object) -> Weld:
    """A weld; `rest` are fields of `Weld`."""
    plain = Weld(name=name, member=part, end=end, leg=3.0, filler="", process="mig")  # type: ignore[arg-type]
    return attrs.evolve(plain, **rest)


def case_of(points: Mapping[str, Sequence[float]], **parts: object) -> Case:
    """A case of points and the given fields."""
    return attrs.evolve(
        Case(
            title="loaded by hand",
            points=tuple(Point(name=name, at=tuple(at)) for name, at in points.items()),  # type: ignore[arg-type]
            metals=METALS,
        ),
        **parts,
    )


def context_of(
    case: Case,
    ends: Mapping[str, Sequence[Ends]],
    severities: Sequence[str] = ("routine",),
    amplified: Sequence[float] | None = None,
) -> Context:
    """A context in which every part named carries, in each load, the six forces at its two ends.

    ends: part -> per load (forces at `from`, forces at `to`), linear in between; parts left out: 0.
    """
    layout, bars = lay_out(case), measure(case)
    forces = np.zeros((1, len(severities), layout.bar.size, 2, 6))
    for name, loads in ends.items():
        number = bars.names.index(name)
        both = np.array(loads, dtype=float)  # (loads, 2, 6)
        for segment in range(int(layout.first[number]), int(layout.last[number]) + 1):
            for side in (0, 1):
                share = layout.along[segment, side] / layout.bar_length[number]
                forces[0, :, segment, side] = (1.0 - share) * both[:, 0] + share * both[:, 1]
    count = len(severities)
    response = Response(
        displaced=lambda: np.zeros((1, count, len(case.points), 6)),
        forces=forces,
        reactions=np.zeros((1, count, len(case.supports), 6)),
    )
    loads = tuple(
        Balanced(
            name=f"load {n}",
            severity=severity,
            lean=0.0,
            scaled_to=1.0,
            braking=0.0,
            driving=0.0,
            cornering=0.0,
            vertical=1.0,
            notes=(),
            wheels=(),
        )
        for n, severity in enumerate(severities)
    )
    heat = heat_lengths(case, layout, bars)
    return Context(
        case=case,
        loads=loads,
        layout=layout,
        bars=bars,
        response=response,
        stations=place_stations(case, layout, bars, response, heat),
        factors=factors_for(case.basis, tuple(severities)),
        alpha=np.full((1, count), np.inf),
        amplified=np.array([amplified if amplified is not None else [1.0] * count]),
    )


def rows_of(context: Context, verdicts: Sequence[Verdict]) -> dict[str, Row]:
    """Rows by `part/load number`."""
    rows = [row for verdict in verdicts for row in verdict.rows(context.load_names)]
    return {f"{row.part}/{context.load_names.index(row.load)}": row for row in rows}


LIMIT_STATE = Basis(method="limit-state")
