"""All checks of a case, in order."""

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from strength.case.checking.cuts import check_cuts
from strength.case.checking.doubled import check_doubled
from strength.case.checking.joints import check_joints
from strength.case.checking.loads import check_loads
from strength.case.checking.meeting import check_meeting, used_points
from strength.case.checking.metals import check_metals
from strength.case.checking.parts import check_parts
from strength.case.checking.survey import Survey
from strength.case.checking.welds import check_welds
from strength.case.checking.wheels import check_wheels
from strength.case.defaults import Defaults
from strength.case.faults import Faults
from strength.case.metals import Stores
from strength.case.model import NotChecked, Warned
from strength.case.trade.entry import Entry
from strength.values import frozen


@frozen(kw_only=True)
class Checked:
    """Entries that the structure is made of, and what was found about them."""

    entries: tuple[Entry, ...]
    warnings: tuple[Warned, ...]
    not_checked: tuple[NotChecked, ...]


def check(
    entries: Iterable[Entry],
    tables: Mapping[str, Mapping[str, Any]],
    defaults: Defaults,
    stores: Stores,
    faults: Faults,
    broken: Collection[str] = (),
) -> Checked:
    """Put every fault of finished entries on the list; points that nothing stands at are left out.

    broken: names that parts at fault would have made.
    """
    survey = Survey(entries, faults, broken)
    check_parts(survey)
    check_wheels(survey, tables.get("vehicle", {}).get("leaning", 0.0))
    check_loads(survey, tables.get("road", {}))
    check_joints(survey, defaults)
    check_doubled(survey)
    check_cuts(survey)
    check_welds(survey, stores)
    if any("method" in weld.keys or "directional" in weld.keys for weld in survey.of("weld").values()):
        from strength.case.checking.weld_methods import check_weld_methods

        check_weld_methods(survey, tables.get("basis", {}), stores)
    check_metals(survey, defaults, stores)
    used = used_points(survey)
    if not faults:
        check_meeting(survey, used)
    return Checked(
        entries=tuple(entry for entry in survey.entries if entry.kind != "point" or entry.name in used),
        warnings=survey.warnings,
        not_checked=survey.not_checked,
    )
