"""Welds that count the force's direction in, eyes and dropouts over designs: each as it comes out alone."""

import numpy as np
import pytest

from strength.case import case_from_text
from strength.run import run
from strength.studies.evaluate import evaluate
from tests.checks.test_dropouts import AXLE
from tests.checks.test_dropouts import CASE as MOTOR
from tests.checks.test_lug import CASE as EYE
from tests.checks.test_weld_by_direction import CASE as LUG


@pytest.mark.parametrize(
    ("text", "sizes", "kind"),
    [
        (LUG.replace("KEY", "directional = true"), ("90 x 6", "70 x 8", "60 x 5"), "weld-throat"),
        (LUG.replace("KEY", 'method = "ultimate"'), ("90 x 6", "70 x 8", "60 x 5"), "weld-throat"),
        (EYE, ("40 x 8", "50 x 8", "60 x 9"), "lug"),
        (MOTOR.replace("AXLE", AXLE), ("50 x 8", "60 x 8", "60 x 10"), "dropout"),
    ],
)
def test_each_as_alone(text: str, sizes: tuple[str, ...], kind: str) -> None:
    """Three sizes of the flat, together and one by one."""
    first = f'"flat {sizes[0]} mm"'
    assert first in text
    cases = [case_from_text(text.replace(first, f'"flat {size} mm"')) for size in sizes]
    found = evaluate(cases)
    assert not found.failed
    assert kind in {name for _, name in found.names}
    for design, case in enumerate(cases):
        worst: dict[tuple[str, str], float] = {}
        for row in run(case).rows:
            worst[row.part, row.kind] = max(worst.get((row.part, row.kind), 0.0), row.utilisation)
        for number, name in enumerate(found.names):
            if np.isfinite(found.utilisation[design, number]):
                assert found.utilisation[design, number] == pytest.approx(worst.get(name, 0.0), rel=1e-9), (
                    name
                )
