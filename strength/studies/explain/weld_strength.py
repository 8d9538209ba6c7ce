"""What the throat of a fillet weld may carry, written down."""

from strength.case.model import Weld
from strength.joints.fillet import QUALITY
from strength.library import Filler
from strength.library.sources import SURE, cite
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, keyed, ultimate_divisor


def filler_origin(filler: Filler) -> str:
    """Where the strength of a filler comes from, and how sure it is."""
    told = "; ".join(text for text in (cite(filler.source), SURE.get(filler.sure, filler.sure)) if text)
    return f"{'case: filler' if filler.own else 'library'}: {filler.name} ({told})"


def write_share(sheet: Sheet, subject: Subject, weld: Weld, share: float, source: str) -> str:
    """Strength of the filler and the part of it that a throat carries; returns both as a formula."""
    filler = subject.context.case.fillers[weld.filler]
    sheet.given("f_F", filler.strength, "stress", "tensile strength of the filler", filler_origin(filler))
    sheet.given("k_F", share, "1", "part of it that a throat carries", source)
    return "k_F*f_F"


def write_quality(sheet: Sheet, subject: Subject, weld: Weld) -> None:
    """k_Q and the divisor n."""
    what = f"quality of the weld: {weld.quality} (own choice)"
    sheet.given("k_Q", QUALITY[weld.quality], "1", what, keyed(weld.path, weld.name, "quality"))
    ultimate_divisor(sheet, subject)
