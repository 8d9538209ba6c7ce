"""Parts of which only bare section properties are known: they carry load, and are not checked."""

from collections.abc import Iterator

from strength.case.model import NotChecked
from strength.case.shape import Bare
from strength.checks.context import Context

WHY = (
    "bare properties do not tell the section's form: taken as stiff in shear, "
    "its stresses, stability and wall are not checked"
)


def bare_sections(context: Context) -> Iterator[NotChecked]:
    """An entry for each member and strut with bare properties."""
    for name, shape in zip(context.bars.names, context.bars.shapes, strict=True):
        if isinstance(shape, Bare):
            yield NotChecked(part=name, kind="yielding", why=WHY)
