"""The greatest payload against closed forms of a cantilever."""

import pytest

from strength.case import case_from_text
from strength.errors import CaseError
from strength.library.data import cases_folder
from strength.run import run
from strength.studies.payload import loaded, payload, reaches
from strength.studies.prepared import prepare
from strength.studies.typed import typed_case

G = 9.80665
SHED = (
    '[material.shed]\nkind = "steel"\nmodulus = "210 GPa"\npoisson = 0.3\ndensity = "7850 kg/m^3"\n'
    'yield = "235 MPa"\nultimate = "360 MPa"\nelongation = 0.25\nweldable = true\n'
    'yield_welded = "235 MPa"\nultimate_welded = "360 MPa"\nsource = "invented"\n'
)
# a bracket arm: tube 30 x 2, 500 mm out, held at the wall; I = A (D^2 + d^2)/16
AREA = 3.141592653589793 * 2.0 * 28.0
MODULUS = AREA * (30.0**2 + 26.0**2) / 16.0 / 15.0


def arm(load: str = "", extra: str = "") -> str:
    """An arm with a fixed mass of 4 kg and a payload of 10 kg at its tip."""
    return (
        f'title = "Bracken wall arm"\n[defaults]\nmaterial = "shed"\n{SHED}'
        '[members]\narm = {from = "0 0 0 mm", to = "500 0 0 mm", section = "tube 30 x 2 mm"}\n'
        '[supports]\narm-from = "all"\n'
        '[masses]\nhook = {mass = "4 kg", at = "500 0 0 mm", carried_by = "arm-to"}\n'
        f'bag = {{mass = "10 kg", at = "500 0 0 mm", carried_by = "arm-to", payload = true}}\n{extra}'
        f"[loads]\n{load or 'hanging = {vertical = 1.5}'}\n"
    )


def test_cantilever() -> None:
    """Fy W/(1.67 g L 1.5) less the hook: yielding at the wall, bending alone."""
    found = payload(case_from_text(arm()))
    most = 235.0 * MODULUS / (1.67 * G * 500.0 * 1.5)
    assert found.payload == pytest.approx(most - 4.0, rel=1e-9)
    assert found.governs.split("/")[0] == "arm"
    assert found.now == 10.0
    assert found.utilisation_now == pytest.approx(14.0 / most, rel=1e-9)
    assert found.following is None  # there is no other part
    assert found.more_helps == ()
    assert not found.over_at_none


def test_factor_of_each_load() -> None:
    """Forces are linear in the load here: 1/u; an amplified one is found by search."""
    text = arm('low = {}\nhigh = {vertical = 2.5, severity = "hard"}')
    found = {each.load: each for each in reaches(prepare(case_from_text(text)))}
    most = 235.0 * MODULUS / (1.67 * G * 500.0)
    assert found["low"].factor == pytest.approx(most / 14.0, rel=1e-9)
    assert found["high"].factor == pytest.approx(most / 35.0, rel=1e-9)


def test_parts_of_the_payload_keep_their_shares() -> None:
    """Two payloads are scaled alike."""
    extra = (
        'tools = {mass = "30 kg", at = "250 0 0 mm", carried_by = ["arm-from", "arm-to"], payload = true}\n'
    )
    case = case_from_text(arm(extra=extra))
    assert [mass.mass for mass in loaded(case, 40.0, 60.0).masses] == [4.0, 15.0, 45.0]
    # half of the second reaches the tip
    most = 235.0 * MODULUS / (1.67 * G * 500.0 * 1.5)
    assert payload(case).payload == pytest.approx((most - 4.0) / 25.0 * 40.0, rel=1e-9)


def test_overloaded_when_empty() -> None:
    """The hook alone is too much: no payload is left, and that is said."""
    found = payload(case_from_text(arm().replace('"4 kg"', '"60 kg"')))
    assert (found.payload, found.over_at_none) == (0.0, True)


def test_payload_that_loads_nothing() -> None:
    """Carried where it is held: no check limits it."""
    text = arm().replace(
        '"10 kg", at = "500 0 0 mm", carried_by = "arm-to"',
        '"10 kg", at = "0 0 0 mm", carried_by = "arm-from"',
    )
    assert payload(case_from_text(text)).payload is None


def test_a_counterweight_is_not_monotone() -> None:
    """Payload behind a see-saw's stem first relieves what the weight in front bends: told, not assumed."""
    text = (
        f'title = "Bracken see-saw"\n[defaults]\nmaterial = "shed"\n{SHED}'
        '[members]\nstem = {from = "0 0 0 mm", to = "0 0 -300 mm", section = "tube 20 x 2 mm"}\n'
        'beam = {from = "-400 0 0 mm", to = "600 0 0 mm", via = ["0 0 0 mm"], section = "tube 30 x 2 mm"}\n'
        '[supports]\nstem-to = "all"\n'
        '[masses]\nfront = {mass = "6 kg", at = "600 0 0 mm", carried_by = "beam-to"}\n'
        'back = {mass = "8 kg", at = "-400 0 0 mm", carried_by = "beam-from", payload = true}\n'
        "[loads]\nstanding = {}\n"
    )
    found = payload(case_from_text(text))
    assert found.more_helps
    assert found.more_helps[0][0] == 0.0
    assert found.payload is not None
    case = case_from_text(text)
    assert run(loaded(case, 8.0, found.payload)).rows[0].utilisation == pytest.approx(1.0, rel=1e-9)


def test_no_payload_marked() -> None:
    """The message says how to mark one."""
    with pytest.raises(CaseError, match="payload = true"):
        payload(case_from_text(arm().replace(", payload = true", "")))


def test_the_trike() -> None:
    """At the payload found a run of the case is at its limit; a kilogram more is over it."""
    case = typed_case(cases_folder() / "bracken-revised" / "case.toml").case
    found = payload(case)
    assert found.payload is not None
    alone = run(loaded(case, found.now, found.payload))
    assert alone.rows[0].utilisation == pytest.approx(1.0, rel=1e-9)
    assert found.governs in {row.id for row in alone.rows if row.utilisation > 1.0 - 1e-9}
    assert run(loaded(case, found.now, found.payload + 1.0)).rows[0].utilisation > 1.0
    assert found.following is not None
    assert found.following > found.payload
