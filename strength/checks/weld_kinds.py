"""Welds that carry the same in many designs, told apart from those that do not."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.kinds import still_bars
from strength.frame.response import Alike
from strength.joints.draw import Group, Lines, Span
from strength.joints.forms import Forms
from strength.joints.peak import Peak
from strength.joints.seat import Seat
from strength.values import evolve, frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Part:
    """Welds of a group; still: all of them carry the same in designs of a kind."""

    group: Group
    span: Span
    still: bool


def parts_of(context: Context, lines: Lines) -> list[Part]:
    """All welds in their groups, those that stand still apart where they are looked at load by load."""
    still = still_bars(context.bars, context.layout, context.response)
    found = []
    for group, span in zip(lines.groups, lines.spans, strict=True):
        own: list[int] = []
        rest: list[int] = []
        for k, n in enumerate(group.welds):
            apart = context.brief and group.alike and _is_still(context, lines.seats[n], still)
            (own if apart else rest).append(k)
        if own and rest and group.cylinder is not None:  # in a plane a look costs too little to be parted
            parts = ((own, True), (rest, False))
            found += [Part(group=group.some(k), span=span.some(k), still=stands) for k, stands in parts]
        else:
            found.append(Part(group=group, span=span, still=not rest))
    return found


def _is_still(context: Context, seat: Seat, still: NDArray[np.bool_]) -> bool:
    if seat.weld.directional or seat.weld.method != "line" or len(seat.leg) > 1:
        return False
    return bool(still[seat.bar]) and (seat.host is None or bool(context.bars.alike[seat.host.bar]))


def of_kinds(forms: Forms, alike: Alike) -> Forms:
    """Forms of welds, told once for all loads of a design, for the kinds of designs alone."""
    return evolve(
        forms,
        scales=forms.scales[:, alike.first],
        sizes=None if forms.sizes is None else forms.sizes[:, alike.first],
    )


def of_designs(peak: Peak, forms: Forms, alike: Alike) -> Peak:
    """Peaks of the kinds of designs, (welds, kinds x loads), for all designs."""

    def every(values: NDArray[np.generic]) -> NDArray[np.generic]:
        by_kind = values.reshape(len(values), alike.first.size, -1, *values.shape[2:])
        return by_kind[:, alike.kind].reshape(len(values), -1, *values.shape[2:])

    return evolve(
        peak,
        group=forms,
        height=every(peak.height),
        form=every(peak.form),
        there=lambda: (every(peak.parts), every(peak.place)),
    )
