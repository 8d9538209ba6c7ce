"""Stiffness of every segment under the axial forces of a load."""

from typing import TYPE_CHECKING

import numpy as np

from strength.frame.links import Links
from strength.frame.modes import EVEN_Y, EVEN_Z, ODD_Y, ODD_Z, SWAY_Y, SWAY_Z
from strength.frame.response import Array, Flags, Index, Layout
from strength.frame.solve import rigidities, stiffness
from strength.frame.stability import bending, first_pole
from strength.values import frozen

if TYPE_CHECKING:
    from strength.sections.bars import Bars


@frozen(kw_only=True, eq=False)
class Softening:
    """Sizes of all designs, so that items of (design, load) can pick theirs."""

    coefficient: Array  # (designs, segments, 6) without axial force
    length: Array  # (segments,)
    ei: Array  # (2, designs, segments) about y, z
    ga: Array  # (2, designs, segments) for Vz, Vy
    pole: Array  # (designs, segments) N, at which a segment buckles between resting ends
    one_ball: Flags
    no_ball: Flags
    bends: Flags

    @classmethod
    def of(cls, layout: Layout, links: Links, bars: "Bars", designs: int) -> "Softening":
        """Sizes of `designs` designs; `bars` may hold one for all."""
        _, _, ei_y, ei_z, ga_y, ga_z = (
            np.broadcast_to(value, (designs, layout.bar.size)) for value in rigidities(layout, bars)
        )
        bends = ~links.exact & (layout.bar < bars.member_count)
        one, none = links.ball[:, 0] ^ links.ball[:, 1], ~np.any(links.ball, axis=1)
        ei, ga = np.stack([ei_y, ei_z]), np.stack([ga_z, ga_y])
        pole = np.full((designs, layout.bar.size), np.inf)
        own = first_pole(ei[..., bends], ga[..., bends], layout.length[bends], one[bends], none[bends])
        pole[:, bends] = own.min(axis=0)
        return cls(
            coefficient=np.broadcast_to(stiffness(layout, links, bars), (designs, layout.bar.size, 6)),
            length=layout.length,
            ei=ei,
            ga=ga,
            pole=pole,
            one_ball=one,
            no_ball=none,
            bends=bends,
        )

    def under(self, design: Index, push: Array) -> Array:
        """Coefficients of all eight patterns (items, segments, 8) under compressions (items, segments) N."""
        out = np.zeros((*push.shape, 8))
        out[..., :6] = self.coefficient[design]
        at = np.flatnonzero(self.bends)
        one = self.coefficient.shape[0] == 1
        ei, ga = (each[..., at] if one else each[:, design[:, None], at] for each in (self.ei, self.ga))
        even, odd = bending(push[:, at], ei, ga, self.length[at], self.one_ball[at], self.no_ball[at])
        for n, (to_even, to_odd) in enumerate(((EVEN_Y, ODD_Y), (EVEN_Z, ODD_Z))):
            out[:, at, to_even], out[:, at, to_odd] = even[n], odd[n]
        out[..., SWAY_Y] = out[..., SWAY_Z] = -push / self.length
        return out

    def limit(self, design: Index, push: Array) -> Array:
        """Multiplier at which the first segment buckles between resting ends (items,); inf: never."""
        load = np.where(push > 0.0, push, 1.0)
        own = np.where(push > 0.0, self.pole[design] / load, np.inf)
        return np.asarray(own.min(axis=1, initial=np.inf))
