"""Wheels, tows, masses and what holds them."""

from strength.case.checking.survey import Survey, nodes


def check_wheels(survey: Survey, leaning: float) -> None:
    """Tell what is wrong with wheels, tows and masses."""
    for wheel in survey.of("wheel").values():
        braked, caliper = wheel.keys.get("braked", False), "caliper" in wheel.keys
        if caliper and not braked:
            survey.warn(wheel.name, "has a `caliper` but is not braked: write braked = true, or leave it out")
        if braked and not caliper:
            survey.warn(wheel.name, "is braked without a `caliper`: the axle takes all of the brake's moment")
    _check_supports(survey)
    tows = list(survey.of("tow").values())
    for tow in tows[1:]:
        survey.fault(tow, "", f"there is a tow already, {tows[0].name!r}: a vehicle is drawn at one place")
    if tows and leaning > 0.0:
        survey.fault(tows[0], "", "a body that leans cannot tow: leave the tow or [vehicle] `leaning` out")
    for mass in survey.of("mass").values():
        carried = mass.keys.get("carried_by", ())
        twice = [name for i, name in enumerate(carried) if name in carried[:i]]
        if twice:
            survey.fault(mass, "carried_by", f"{twice[0]!r} is named twice")
        elif not carried and not survey.of("support") and not survey.faults.under(mass.path):
            why = "which points carry it into the structure? Without supports each mass needs some"
            survey.fault(mass, "", f"`carried_by` is missing: {why}")


def _check_supports(survey: Survey) -> None:
    """The road carries a wheel; a support there would carry it twice."""
    parts = (*survey.of("member").values(), *survey.of("strut").values())
    carrying = {name for part in parts for name in nodes(part)}
    centres = {wheel.keys.get("centre"): wheel.name for wheel in survey.of("wheel").values()}
    held: dict[str, str] = {}
    for support in survey.of("support").values():
        at = support.keys.get("at")
        if at in centres and at in carrying:
            why = f"the road carries the wheel {centres[at]!r} already: leave the support out"
            survey.fault(support, "at", why)
        if at in held:
            survey.fault(
                support, "at", f"{at!r} is held by the support {held[at]!r} already: write one of the two"
            )
        elif at is not None:
            held[at] = support.name
