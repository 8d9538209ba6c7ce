"""The JSON record of the load sheet. Forces N, angles rad, speeds m/s, limits in multiples of g."""

from collections.abc import Sequence
from typing import Any

from strength.report.cautions import CAUTIONS
from strength.report.record import FORMAT, load_record
from strength.vehicle.sheet import Balanced, Limit


def loads_record(loads: Sequence[Balanced], limits: Sequence[Limit]) -> dict[str, Any]:
    """Loads as in the record of a summary, then the limits; null: over 6 g or never."""
    return {
        "format": FORMAT,
        "cautions": list(CAUTIONS),
        "loads": [load_record(load) for load in loads],
        "limits": [_limit(limit) for limit in limits],
    }


def _limit(limit: Limit) -> dict[str, Any]:
    """One limit with the keys that mean something for it."""
    record: dict[str, Any] = {"what": limit.what, "with_payload": limit.with_payload}
    if limit.what.startswith("side slope"):
        return {**record, "angle": limit.angle}
    record |= {"tips_at": limit.tips_at, "slides_at": limit.slides_at}
    if limit.speed:
        record["speed"] = dict(limit.speed)
    return record
