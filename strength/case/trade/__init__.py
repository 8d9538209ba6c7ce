"""Wishbones, knuckles and brackets: what a builder names, turned into plain entries.

`expand` is the way in; `loose` looks at the finished case for a knuckle that nothing keeps from turning
and a wishbone that nothing keeps from swinging. The modules, in the order in which they are used:
`reading` (keys to parts), `layout`, `lending`, `laying` (places and geometry, found when asked for),
`wishbone`, `knuckle`, `bracket` (plain entries), `joining` and `welded_ends`, `changes`; then `mobility`.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from strength.case.trade.changes import Change, changed
    from strength.case.trade.expansion import Expansion, expand
    from strength.case.trade.mobility import loose

__all__ = ["Change", "Expansion", "changed", "expand", "loose"]
_HOMES = {
    "Change": "changes",
    "Expansion": "expansion",
    "changed": "changes",
    "expand": "expansion",
    "loose": "mobility",
}


def __getattr__(name: str) -> object:
    """Load a public name when it is first asked for: `strength.case.places` stands between them."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
