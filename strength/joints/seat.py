"""Where a weld sits: its plane across the member, and the part it is welded onto."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs, settled
from strength.case.model import Case, Plate, Weld
from strength.case.shape import Bar, Box, Shape, Tube
from strength.frame.response import Layout
from strength.sections.bars import Bars
from strength.values import evolve, frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Host:
    """The member that a weld stands on; directions and places in the welded member's axes.

    axes: rows x, y, z of the host. origin: the host's `from`, seen from the middle of the weld
    plane [mm]. face: outward normal of the face it is welded to, None on a round host or where its
    sizes are not known. at: place of the weld along the host [mm from `from`]. origin (designs or 1, 3),
    at (designs or 1,).
    """

    bar: int
    shape: Shape | None
    axes: Array
    origin: Array
    length: float
    face: Array | None
    at: Array

    @property
    def round(self) -> bool:
        """True for a tube or a round bar."""
        return isinstance(self.shape, Tube | Bar)

    @property
    def hollow(self) -> bool:
        """True for a tube or a box."""
        return isinstance(self.shape, Tube | Box)


@frozen(kw_only=True, eq=False)
class Seat:
    """A weld's place: bar, plane [mm from `from`], and the member's axes (rows, body axes).

    leg, inset, plane: (designs or 1,) [mm]. into: +1 where the member runs from the weld toward +x, -1
    where toward -x. later: the side of a via point on which the member leaves the weld.
    """

    weld: Weld
    bar: int
    shape: Shape | None
    leg: Array
    inset: Array
    plane: Array
    into: float
    axes: Array
    host: Host | None
    plate: Plate | None

    def of_designs(self, own: NDArray[np.intp]) -> "Seat":
        """That in some of the designs."""
        host = self.host
        if host is not None:
            host = evolve(host, origin=in_designs(host.origin, own), at=in_designs(host.at, own))
        leg, inset, plane = (in_designs(values, own) for values in (self.leg, self.inset, self.plane))
        return evolve(self, leg=leg, inset=inset, plane=plane, host=host)

    @property
    def later(self) -> int:
        """1: forces on the side toward `to`."""
        return 1 if self.into > 0.0 else 0


def seats(case: Case, layout: Layout, bars: Bars) -> tuple[Seat, ...]:
    """The seat of every weld of the case, in order."""
    number = {name: n for n, name in enumerate(bars.names[: bars.member_count])}
    legs = [np.array([weld.leg]) for weld in case.welds]
    insets = [np.array([weld.inset]) for weld in case.welds]
    if bars.weld_legs is not None:
        legs = settled(bars.weld_legs)
    if bars.weld_insets is not None:
        insets = settled(bars.weld_insets)
    return tuple(
        _seat(weld, layout, bars, number, leg, inset)
        for weld, leg, inset in zip(case.welds, legs, insets, strict=True)
    )


def _seat(weld: Weld, layout: Layout, bars: Bars, number: dict[str, int], leg: Array, inset: Array) -> Seat:
    bar = number[weld.member]
    into = 1.0 if weld.end == "from" else -1.0
    length = float(layout.bar_length[bar])
    first, last = int(layout.first[bar]), int(layout.last[bar])
    axes = layout.axes[first if into > 0.0 else last]
    point = layout.points[layout.start[first] if into > 0.0 else layout.end[last]]
    middle = point + into * inset[:, None] * axes[0]
    host = None
    if isinstance(weld.onto, str):
        host = _host(number[weld.onto], layout, bars, axes, middle, into)
    return Seat(
        weld=weld,
        bar=bar,
        shape=bars.shapes[bar],
        leg=leg,
        inset=inset,
        plane=inset if into > 0.0 else length - inset,
        into=into,
        axes=axes,
        host=host,
        plate=weld.onto if isinstance(weld.onto, Plate) else None,
    )


def _host(bar: int, layout: Layout, bars: Bars, axes: Array, middle: Array, into: float) -> Host:
    first = int(layout.first[bar])
    own = layout.axes[first] @ axes.T
    origin = (layout.points[layout.start[first]] - middle) @ axes.T
    shape = bars.shapes[bar]
    face = None
    half_y, half_z = bars.width[0, bar] / 2.0, bars.depth[0, bar] / 2.0
    if not isinstance(shape, Tube | Bar) and np.isfinite(half_y + half_z):
        # The member leaves through the face that it meets first on its way out from the centre line.
        out = own @ np.array([into, 0.0, 0.0])
        by_y = half_y * abs(out[2]) <= half_z * abs(out[1])
        axis = 1 if by_y else 2
        face = own[axis] * (1.0 if out[axis] >= 0.0 else -1.0)
    return Host(
        bar=bar,
        shape=shape,
        axes=own,
        origin=origin,
        length=float(layout.bar_length[bar]),
        face=face,
        at=-origin @ own[0],
    )
