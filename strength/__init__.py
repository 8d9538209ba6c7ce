"""Strength: structural and weld strength estimates for light vehicles built one at a time.

The flow, in the order of the folders:

1. `strength.case` reads a TOML file into a frozen, checked `Case`, all faults told together.
2. `strength.vehicle` balances masses and manoeuvres into wheel forces and brings them to points.
3. `strength.sections` measures the bars: properties, metals, stress matrices.
4. `strength.frame` solves the space frame: displacements, internal forces, buckling.
5. `strength.joints` turns end forces into tractions of welds and forces of bolts.
6. `strength.checks` compares demand with limit, a row per part, kind and load.
7. `strength.report` tells it: console, page, drawing, record.

`strength.run` is the same on one page, as code. It is an estimate to find weak parts, not a proof of safety.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from strength.case import read_case as read
    from strength.run import run

__all__ = ["read", "run"]


def __getattr__(name: str) -> Any:
    """Import on first use: a program that only asks for the version need not load numpy."""
    if name == "read":
        from strength.case import read_case

        return read_case
    if name == "run":
        from strength.run import run

        return run
    raise AttributeError(f"module 'strength' has no attribute {name!r}")
