"""The cautions that stand first and last on every face of a report; they cannot be switched off.

Own wording, after the disclaimers customary among builders of one-off vehicles.
"""

HEADING = "CAUTION: AN ESTIMATE, NOT A PROOF OF SAFETY"

CAUTIONS: tuple[str, ...] = (
    (
        "These figures are an estimate only, meant to find weak parts before metal is cut. "
        "They are not a proof of safety."
    ),
    "Your local vehicle and cycle rules and a licensed engineer decide whether this may be built and ridden.",
    (
        "Have the welds made by a competent welder, and tested: cut and break sample welds first, "
        "then inspect every weld on the vehicle."
    ),
    "Proof-load it, ride gently, and inspect it again.",
    "The load and safety factors are a designer's choice, not the rule of any authority.",
)

ONE_LINE = "An estimate only, not a proof of safety: local rules and a licensed engineer decide."
