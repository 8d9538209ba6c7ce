"""How far a verdict reaches: the factors that hold, those of brittle metals among them."""

import attrs
import pytest

from strength.report.program import version
from strength.report.reach import reach
from strength.report.view import look
from tests.report.outcomes import case, outcome


def factors(method: str) -> dict[str, str]:
    """The list of factors."""
    basis = attrs.evolve(case().basis, method=method)
    section = reach(look(outcome(case=attrs.evolve(case(), basis=basis))))
    return dict(section.body[0].items)


def test_brittle_metals_have_a_factor_of_their_own() -> None:
    """Abuse may not bend what would part: 1.67 (AISC 360 ASD) stands beside the 1.25 of ductile metals."""
    told = factors("allowable")
    assert told["yielding"].endswith("abuse 1.25")
    (brittle,) = (text for name, text in told.items() if "brittle" in name and "studs" in name)
    assert brittle == "1.67 at least, abuse too"
    assert not [name for name in factors("limit-state") if "brittle" in name]


def test_a_copy_that_is_not_installed_still_tells(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without its installation record the program says so instead of failing."""
    assert version()[0].isdigit()
    monkeypatch.setattr("strength.report.program.NAME", "no such distribution")
    assert version() == "not installed"
