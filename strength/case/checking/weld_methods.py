"""Welds that ask for the directional increase or for their ultimate strength: where these do not count."""

import math
from collections.abc import Mapping
from typing import Any

from strength.case.checking.survey import Survey, shape_of
from strength.case.faults import RefusedError
from strength.case.metals import Stores
from strength.case.shape import Bar, Box, Tube
from strength.case.trade.entry import Entry

PARALLEL = 1e-6  # sine of the angle between two lines


def check_weld_methods(survey: Survey, basis: Mapping[str, Any], stores: Stores) -> None:
    """Refuse both where their source does: AISC 360-16 J2.4, its commentary for hollow sections."""
    for weld in survey.of("weld").values():
        keys = weld.keys
        ultimate, directional = keys.get("method") == "ultimate", bool(keys.get("directional"))
        if not ultimate and not directional:
            continue
        key = "method" if ultimate else "directional"
        if ultimate and directional:
            survey.fault(weld, "directional", 'method = "ultimate" counts the direction in: leave this out')
        if basis.get("method", "allowable") != "allowable":
            survey.fault(weld, key, "it counts on the allowable basis only: leave it out")
        why = _metal_fault(weld, stores) or _shape_fault(survey, weld)
        if not why and directional and not ultimate and not _is_parallel(weld):
            why = (
                "it counts for lines that all run one way, such as pattern = 'sides'; for other groups in "
                'their own plane take method = "ultimate"'
            )
        if why:
            survey.fault(weld, key, why)


def _metal_fault(weld: Entry, stores: Stores) -> str:
    """Only fillets of steel and stainless are covered."""
    try:
        kind = stores.filler(weld.keys["filler"]).kind
    except (KeyError, RefusedError):  # told where it is named
        return ""
    return "" if kind in ("steel", "stainless") else f"it counts for steel, not for a filler of {kind}"


def _shape_fault(survey: Survey, weld: Entry) -> str:
    onto = weld.keys.get("onto")
    host = survey.of("member").get(onto) if isinstance(onto, str) else None
    for part in (survey.member_of(weld), host):
        if part is not None and isinstance(shape_of(part), Tube | Box):
            return f"{part.name!r} is hollow: the increase is not for welds to hollow sections"
    if host is not None and isinstance(shape_of(host), Bar):
        return f"on the round {host.name!r} the line of the weld does not lie in a plane"
    return ""


def _is_parallel(weld: Entry) -> bool:
    """Whether all lines of a weld run one way."""
    pattern = weld.keys.get("pattern", "around")
    if isinstance(pattern, str):
        return pattern == "sides"
    ways = [(y2 - y1, z2 - z1) for y1, z1, y2, z2 in pattern]
    first = ways[0]
    return all(
        abs(first[0] * z - first[1] * y) <= PARALLEL * math.hypot(*first) * math.hypot(y, z) for y, z in ways
    )
