"""`bolt-shear` of the bolt across a sleeve, which holds the tubes against pull and torque."""

from collections.abc import Iterator

import numpy as np

from strength.checks.context import Context
from strength.checks.joint_rows import worst_place
from strength.checks.verdict import Verdict
from strength.joints.fastener import fastener

SOURCE = "EN 1993-1-8:2005 Table 3.4; pull and torque shared by both sides of the tube (own choice)"


def sleeve_bolt(context: Context) -> Iterator[Verdict]:
    """sqrt((N/2)^2 + (T/d)^2) on each side of the inner tube, d its outside diameter."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects

    for effect in sleeve_effects(context):
        size = effect.sleeve.bolt
        if size is None:
            continue
        own = fastener(size, effect.sleeve.grade, thread_in_shear=size.kind == "thread")
        shear = np.hypot(effect.pull / 2.0, effect.torque / effect.tubes[0].outside[:, None])
        yield worst_place(
            context,
            part=effect.sleeve.name,
            kind="bolt-shear",
            unit="N",
            fails="parts",
            source=SOURCE,
            demand=(shear * context.factors.load())[..., None],
            limit=own.shear / context.factors.on_ultimate()[:, None],
            path_factor=effect.path_factor,
            places=(f"{own.size.text} across {effect.sleeve.member}",),
            in_range=not own.outside,
            note="; ".join(text for text in (own.outside, "per plane, of 2") if text),
            amplified=False,
        )
