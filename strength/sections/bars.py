"""The bars of a case as arrays: what every later stage computes with.

A *bar* is a member or a strut: `case.members` in order, then `case.struts`. Numbers carry a
leading axis of designs, length one unless a study varies sizes.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Shape
from strength.library import Metal
from strength.values import evolve, field, fields, frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Bars:
    """Sizes, properties and metals of all bars; (designs, bars) unless said otherwise.

    Rows of a bar without a section (strut by stiffness, `rigid`) are nan. Lengths mm, mm^2, mm^4;
    stresses MPa. z lies along `up` (depth), y across it (width).
    """

    names: tuple[str, ...]
    shapes: tuple[Shape | None, ...]  # of the first design
    metals: tuple[Metal | None, ...]
    member_count: int  # bars[:member_count] are members
    area: Array
    iy: Array
    iz: Array
    torsion: Array  # torsion constant J
    shear_y: Array  # shear area kappa*A for Vy; inf where shear-stiff
    shear_z: Array
    modulus_y: Array  # elastic section modulus for My
    modulus_z: Array
    depth: Array  # outer, along z_m
    width: Array  # outer, along y_m
    wall: Array  # wall, thickness or diameter: what strength and heat-affected widths go by
    youngs: Array
    shear: Array  # shear modulus G
    yield_: Array
    ultimate: Array
    yield_welded: Array  # equal to `yield_` where welding takes nothing away or is not known
    ultimate_welded: Array
    elongation: Array  # nan: unknown
    density: Array  # (bars,) kg/mm^3
    # (designs, welds) [mm] where designs differ in them; None: as the welds of the case have them
    weld_legs: Array | None = None
    weld_insets: Array | None = None
    # product moment of area, integral of y z: 0 but for outlines
    iyz: Array = field(factory=lambda: np.zeros((1, 1)))
    # part of the shear compliance that couples Vy and Vz [1/mm^2], likewise
    shear_mix: Array = field(factory=lambda: np.zeros((1, 1)))

    def of_designs(self, own: NDArray[np.intp] | slice) -> "Bars":
        """Some designs of many."""
        return evolve(self, **{name: value[own] for name, value in self._figures.items()})

    @cached_property
    def alike(self) -> NDArray[np.bool_]:
        """Bars whose figures are the same in all designs (bars,)."""
        found = np.ones(len(self.names), dtype=bool)
        for value in self._figures.values():
            if value.shape[1] == found.size:
                found &= ((value == value[:1]) | (value != value)).all(axis=0)
        return found

    @cached_property
    def _figures(self) -> dict[str, Array]:
        """Those of which there is one a design."""
        every = {each.name: getattr(self, each.name) for each in fields(Bars)}
        return {
            name: value
            for name, value in every.items()
            if isinstance(value, np.ndarray) and value.ndim == 2 and len(value) > 1
        }
