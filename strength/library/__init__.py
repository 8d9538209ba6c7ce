"""The library of metals, fillers, fasteners and stock sizes, read from `materials/*.toml`."""

from strength.library.filler import Filler
from strength.library.fillers import find_filler
from strength.library.metal import Metal, Strength
from strength.library.metals import find_metal

__all__ = ["Filler", "Metal", "Strength", "find_filler", "find_metal"]
