"""The kinds of part in a case file, and the keys of each."""

from strength.case.kinds.joints import JOINTS
from strength.case.kinds.kind import Kind
from strength.case.kinds.structure import STRUCTURE
from strength.case.kinds.trade import TRADE
from strength.case.kinds.vehicle import VEHICLE

KINDS: dict[str, Kind] = {kind.word: kind for kind in (*STRUCTURE, *VEHICLE, *JOINTS, *TRADE)}
PLURALS: dict[str, Kind] = {kind.plural: kind for kind in KINDS.values()}

__all__ = ["KINDS", "PLURALS", "Kind"]
