"""The library of metals, fillers, fasteners and stock sizes, read from `materials/*.toml`.

What only some cases need (threads, bolts, stock, fatigue) is imported when first asked for.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from strength.library.filler import Filler
from strength.library.fillers import find_filler
from strength.library.metal import Metal, Strength
from strength.library.metals import find_metal

if TYPE_CHECKING:
    from strength.library.bolt import BoltClass, find_bolt_class
    from strength.library.fatigue import FatigueClass, fatigue_class
    from strength.library.screws import RodEndRating, ShoulderScrew, rod_end_rating, shoulder_screw
    from strength.library.sizes import StockSize, stock
    from strength.library.threads import Thread, thread
    from strength.library.tolerance import WallTolerance, wall_tolerance

_LATE = {
    "bolt": ("BoltClass", "find_bolt_class"),
    "fatigue": ("FatigueClass", "fatigue_class"),
    "screws": ("RodEndRating", "ShoulderScrew", "rod_end_rating", "shoulder_screw"),
    "sizes": ("StockSize", "stock"),
    "threads": ("Thread", "thread"),
    "tolerance": ("WallTolerance", "wall_tolerance"),
}
_HOME = {name: module for module, names in _LATE.items() for name in names}

__all__ = [
    "BoltClass",
    "FatigueClass",
    "Filler",
    "Metal",
    "RodEndRating",
    "ShoulderScrew",
    "StockSize",
    "Strength",
    "Thread",
    "WallTolerance",
    "fatigue_class",
    "find_bolt_class",
    "find_filler",
    "find_metal",
    "rod_end_rating",
    "shoulder_screw",
    "stock",
    "thread",
    "wall_tolerance",
]


def __getattr__(name: str) -> Any:
    """Import what was not needed until now."""
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
