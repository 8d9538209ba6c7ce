"""The library of metals, fillers, fasteners and stock sizes, read from `materials/*.toml`."""

from strength.library.filler import Filler
from strength.library.metal import Metal, Strength

__all__ = ["Filler", "Metal", "Strength"]
