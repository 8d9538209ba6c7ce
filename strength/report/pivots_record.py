"""Kinds of pivot of one wishbone side by side, as a record."""

from typing import Any

from strength.report.standing import ROUNDING
from strength.studies.pivots import PivotKind, Pivots, Worst


def exit_code(found: Pivots) -> int:
    """0: the arm is under its limits with a kind of pivot; 3: with rows out of range; 1: with none."""
    under = [each.worst for each in found.favoured if each.worst and each.worst.utilisation <= 1.0 + ROUNDING]
    if not under:
        return 1
    return 0 if any(each.in_range for each in under) else 3


def pivots_record(found: Pivots) -> dict[str, Any]:
    """The record of `pivots`: mm, N, N*mm, MPa, rad."""
    best = found.favoured
    return {
        "format": 1,
        "part": found.part,
        "now": found.now,
        "size": found.size,
        "bush": found.bush,
        "favoured": best[0].name if best else None,
        "kinds": [_kind_record(each) for each in found.kinds],
    }


def _kind_record(kind: PivotKind) -> dict[str, Any]:
    shank = kind.shank
    return {
        "name": kind.name,
        "held": kind.held,
        "arm": _worst_record(kind.arm),
        "pivots": _worst_record(kind.pivots),
        "whole": _worst_record(kind.whole),
        "shank": None
        if shank is None
        else {"id": shank.id, "demand": shank.demand, "limit": shank.limit, "margin": shank.margin},
        "why": kind.why,
        "forces": [
            {
                word: getattr(each, word)
                for word in (
                    "side", "load", "along", "across", "about", "tipping", "swing", "tilt", "edge", "bearing",
                )
            }
            for each in kind.passing
        ],
    }  # fmt: skip


def _worst_record(worst: Worst | None) -> dict[str, Any] | None:
    if worst is None:
        return None
    return {"utilisation": worst.utilisation, "governs": worst.governs, "in_range": worst.in_range}
