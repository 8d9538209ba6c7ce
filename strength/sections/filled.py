"""`Bars` out of shapes, metals and sizes."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.arrays import numbered
from strength.case.shape import Bar, Bare, Box, Outline, Shape, Tube
from strength.library import Metal
from strength.sections.bars import Bars
from strength.sections.box import box
from strength.sections.flat import flat
from strength.sections.properties import Properties
from strength.sections.round import bar, tube
from strength.sections.sizes import SIZED, Sizes
from strength.sections.strengths import Strengths, strengths
from strength.values import fields

if TYPE_CHECKING:
    from strength.case.model import Basis

Array = NDArray[np.float64]
Index = NDArray[np.intp]

PROPERTIES = tuple(field.name for field in fields(Properties))
STRENGTHS = tuple(field.name for field in fields(Strengths))


def diameter(shape: Shape | None, depth: Array) -> Array | None:
    """Outside diameter [mm] of a round part, None of any other."""
    return depth if isinstance(shape, Tube | Bar) else None


def least_wall(shape: Shape | None, metal: Metal | None, wall: Array) -> Array:
    """Walls [mm] of a tube or box with its standard's minus tolerance taken off; of others unchanged."""
    if not isinstance(shape, Tube | Box):
        return wall
    from strength.library import wall_tolerance

    values, number = numbered(wall)
    least = np.array([value - wall_tolerance(metal, float(value)).minus for value in values])
    return least[number]


def _sized(kind: type[Shape], depth: Array, width: Array, wall: Array, poisson: Array) -> Properties:
    if kind is Tube:
        return tube(depth, wall, poisson)
    if kind is Bar:
        return bar(depth, poisson)
    if kind is Box:
        return box(depth, width, wall, poisson)
    return flat(depth, width, poisson)


def _bare(shape: Bare) -> Properties:
    # nothing is known of its form: stiff in shear, and no stresses
    nan = np.array([np.nan])
    return Properties(
        area=np.array([shape.area]),
        iy=np.array([shape.iy]),
        iz=np.array([shape.iz]),
        torsion=np.array([shape.torsion]),
        kappa_y=np.array([np.inf]),
        kappa_z=np.array([np.inf]),
        modulus_y=nan,
        modulus_z=nan,
        depth=nan,
        width=nan,
        wall=nan,
    )


def _put(found: dict[str, Array], own: Index, properties: Properties) -> None:
    for name in PROPERTIES:
        found[name][:, own] = getattr(properties, name)


def _strong(
    shapes: tuple[Shape | None, ...], metals: tuple[Metal | None, ...], sizes: Sizes, wall: Array
) -> dict[str, Array]:
    """Strengths of all bars (designs, bars), one look-up a metal for round bars and one for the others."""
    groups: dict[tuple[int, bool], list[int]] = {}
    for n, (shape, metal) in enumerate(zip(shapes, metals, strict=True)):
        if metal is not None and not isinstance(shape, Bare):
            groups.setdefault((id(metal), isinstance(shape, Tube | Bar)), []).append(n)
    strong = {name: np.full(sizes.depth.shape, np.nan) for name in STRENGTHS}
    drawn = np.array([isinstance(shape, Outline) for shape in shapes], dtype=bool)
    thickness = np.where(drawn, wall, sizes.wall)
    for (_, is_round), own in groups.items():
        metal = metals[own[0]]
        if metal is not None:
            row = strengths(metal, thickness[:, own], sizes.depth[:, own] if is_round else None)
            for name in STRENGTHS:
                strong[name][:, own] = getattr(row, name)
    return strong


def filled(
    names: tuple[str, ...],
    shapes: tuple[Shape | None, ...],
    metals: tuple[Metal | None, ...],
    member_count: int,
    sizes: Sizes,
    basis: "Basis",
) -> Bars:
    """Bars of these shapes, metals and nominal sizes (designs, bars).

    Raises RangeError where a metal holds no strength for a thickness.
    """
    wall = sizes.wall
    if basis.wall == "minimum":
        wall = np.stack(
            [least_wall(s, m, wall[:, n]) for n, (s, m) in enumerate(zip(shapes, metals, strict=True))], -1
        )
    poisson = np.array([np.nan if metal is None else metal.poisson for metal in metals])
    found = {name: np.full(sizes.depth.shape, np.nan) for name in PROPERTIES}
    for kind in SIZED:
        own = np.array([n for n, shape in enumerate(shapes) if isinstance(shape, kind)], dtype=np.intp)
        if own.size:
            _put(
                found, own, _sized(kind, sizes.depth[:, own], sizes.width[:, own], wall[:, own], poisson[own])
            )
    mixed, shear_mixed = np.zeros(sizes.depth.shape), np.zeros(sizes.depth.shape)
    for n, shape in enumerate(shapes):
        if isinstance(shape, Bare):
            _put(found, np.array([n]), _bare(shape))
        elif isinstance(shape, Outline):
            from strength.sections.outline import meshed, outline_properties

            _put(found, np.array([n]), outline_properties(shape))
            mixed[:, n] = meshed(shape).figure("iyz")
            shear_mixed[:, n] = meshed(shape).figure("shear_mix")
    strong = _strong(shapes, metals, sizes, found["wall"])
    whole = np.ones(sizes.depth.shape)
    kappa_y, kappa_z = found.pop("kappa_y"), found.pop("kappa_z")
    flexible = 1.0 if basis.shear_flexible else np.inf
    return Bars(
        names=names,
        shapes=shapes,
        metals=metals,
        member_count=member_count,
        shear_y=kappa_y * found["area"] * flexible,
        shear_z=kappa_z * found["area"] * flexible,
        youngs=whole * [np.nan if metal is None else metal.modulus for metal in metals],
        shear=whole * [np.nan if metal is None else metal.shear_modulus for metal in metals],
        iyz=mixed,
        shear_mix=shear_mixed / flexible,
        density=np.array([np.nan if metal is None else metal.density for metal in metals]),
        **found,
        **strong,
    )
