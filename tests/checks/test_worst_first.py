"""The order of rows: greatest first, ties but for round-off as they are registered."""

import math
from types import SimpleNamespace
from typing import Any

from strength.checks.register import worst_first


def verdict(*uses: float) -> Any:
    """Rows of such utilisations."""
    return SimpleNamespace(rows=lambda _loads, _design: [SimpleNamespace(utilisation=use) for use in uses])


def test_order() -> None:
    """Round-off tells nobody apart, a real difference does; what is no number stands first."""
    verdicts = (verdict(0.5, 0.75), verdict(0.75 + 1e-14, 0.75 + 1e-9), verdict(-math.inf, 0.5 - 1e-14))
    context: Any = SimpleNamespace(load_names=("one", "other"))
    found = [row.utilisation for row in worst_first(context, verdicts)]
    assert found == [0.75 + 1e-9, 0.75, 0.75 + 1e-14, 0.5, 0.5 - 1e-14, -math.inf]
    (first, *_) = worst_first(context, (*verdicts, verdict(math.nan)))
    assert math.isnan(first.utilisation)


def test_no_rows() -> None:
    """Nothing checked has no order."""
    context: Any = SimpleNamespace(load_names=())
    assert worst_first(context, ()) == ()
