"""Shapes to properties and stresses."""

from strength.sections.bars import Bars
from strength.sections.measured import measure, rebuilt, resized
from strength.sections.sizes import Sizes, sizes_of

__all__ = ["Bars", "Sizes", "measure", "rebuilt", "resized", "sizes_of"]
