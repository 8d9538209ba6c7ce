"""From the case's shapes and metals to `Bars`; `resized` does it for many designs at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Basis, Case, Member, Strut
from strength.case.shape import Bare, Box, Outline, Rigid, Shape
from strength.errors import CaseError, RangeError
from strength.sections.bars import Bars
from strength.sections.box import corner_radii
from strength.sections.filled import diameter, filled
from strength.sections.sizes import Sizes, sizes_of
from strength.sections.strengths import strengths

Array = NDArray[np.float64]


def measure(case: Case) -> Bars:
    """Properties and metals of all members, then struts, as one design.

    Raises CaseError with every bar whose metal holds no strength for its thickness, or whose walls
    leave no room for the corners of a box.
    """
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    shapes: tuple[Shape | None, ...] = tuple(part.shape for part in parts)
    metals = tuple(
        None if shape is None or isinstance(shape, Rigid) else case.metals[part.material]
        for part, shape in zip(parts, shapes, strict=True)
    )
    sizes = sizes_of([shapes])
    faults: list[tuple[str, str]] = []
    sound: set[tuple[Shape, str]] = set()  # large frames repeat few sections
    for n, (part, shape, metal) in enumerate(zip(parts, shapes, metals, strict=True)):
        if shape is None or (shape, part.material) in sound:
            continue
        before = len(faults)
        if isinstance(shape, Box) and 2.0 * corner_radii(shape.wall)[0] > min(shape.depth, shape.width):
            faults.append(
                (part.path, f"{part.name}: the corners of a {shape.wall:g} mm wall do not fit on its sides")
            )
        if metal is not None and not isinstance(shape, Bare):
            try:
                strengths(metal, _thickness(shape, sizes.wall[:, n]), diameter(shape, sizes.depth[:, n]))
            except RangeError as error:
                faults.append((part.path, f"{part.name}: {error}"))
        if len(faults) == before:
            sound.add((shape, part.material))
    if faults:
        raise CaseError(faults)
    return filled(tuple(part.name for part in parts), shapes, metals, len(case.members), sizes, case.basis)


def _thickness(shape: Shape | None, wall: Array) -> Array:
    if not isinstance(shape, Outline):
        return wall
    from strength.sections.outline import meshed

    return np.full(wall.shape, meshed(shape).figure("thickness"))


def resized(bars: Bars, basis: Basis, designs: Sequence[Sequence[Shape | None]]) -> Bars:
    """The same bars in many designs: one sequence of shapes per design, each bar of its old kind.

    Raises RangeError where a metal holds no strength for a thickness.
    """
    return rebuilt(bars, basis, sizes_of(designs))


def rebuilt(bars: Bars, basis: Basis, sizes: Sizes) -> Bars:
    """The same bars with nominal sizes (designs, bars); bars without sizes keep what they have.

    Raises RangeError where a metal holds no strength for a thickness.
    """
    return filled(bars.names, bars.shapes, bars.metals, bars.member_count, sizes, basis)
