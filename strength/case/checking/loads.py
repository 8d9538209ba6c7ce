"""Loads: what they name, and whether the vehicle can do what they ask."""

from typing import Any

from strength.case.checking.survey import Survey
from strength.case.faults import nearest
from strength.case.places import other_side
from strength.case.trade.entry import Entry

MIDDLE = 1.0  # mm: a wheel nearer to the middle plane has no inward side


def check_loads(survey: Survey, road: Any) -> None:
    """Tell what is wrong with loads and with the road that is made of them."""
    for load in survey.of("load").values():
        if survey.faults.under(load.path):
            continue
        _check_wheels(survey, load)
        _check_strike(survey, load)
        _check_drive(survey, load)
        _check_contacts(survey, load)
        for i, force in enumerate(load.keys.get("forces", ())):
            if "force" not in force and "moment" not in force:
                survey.fault(load, f"forces[{i}]", "puts nothing on: give `force`, `moment` or both")
        if "turn" in load.keys and not load.keys.get("cornering"):
            survey.warn(load.name, "`turn` says nothing without `cornering`")
    for i, block in enumerate(road.get("block", ())):
        for key in ("from", "to"):
            if block[key] not in survey.of("load"):
                why = f"no load is named {block[key]!r}{nearest(block[key], survey.of('load'))}"
                survey.faults.add(f"road.block[{i}].{key}", why)
        if block["from"] == block["to"]:
            survey.faults.add(f"road.block[{i}]", "goes from a load to the same load: nothing changes in it")


def _check_wheels(survey: Survey, load: Entry) -> None:
    lifted = load.keys.get("off_ground", ())
    for i, name in enumerate(lifted):
        if name not in survey.of("wheel"):
            why = f"no wheel is named {name!r}{nearest(name, survey.of('wheel'))}"
            survey.fault(load, f"off_ground[{i}]", why)
        elif name in lifted[:i]:
            survey.fault(load, f"off_ground[{i}]", f"{name!r} is named twice")


def _check_strike(survey: Survey, load: Entry) -> None:
    strike = load.keys.get("strike")
    if strike is None:
        return
    name = strike["wheel"]
    wheel = survey.of("wheel").get(name)
    if wheel is None:
        survey.fault(load, "strike.wheel", f"no wheel is named {name!r}{nearest(name, survey.of('wheel'))}")
        return
    if load.keys.get("cornering"):
        survey.fault(load, "strike", "a strike in a bend is not worked out: make two loads of it")
    if name in load.keys.get("off_ground", ()):
        survey.fault(load, "strike.wheel", f"{name!r} is off the ground in this load, so nothing strikes it")
    centre = survey.points.get(wheel.keys.get("centre", ""))
    if strike.get("inward") and centre is not None and abs(centre[1]) < MIDDLE:
        why = f"{name!r} stands in the middle (y = {centre[1]:.2g} mm), where no side is inward: leave it out"
        survey.fault(load, "strike.inward", why)


def _on_ground(survey: Survey, load: Entry) -> list[Entry]:
    lifted = load.keys.get("off_ground", ())
    return [wheel for name, wheel in survey.of("wheel").items() if name not in lifted]


def _check_drive(survey: Survey, load: Entry) -> None:
    braking, driving = load.keys.get("braking", 0.0), load.keys.get("driving", 0.0)
    if braking and driving:
        survey.fault(load, "driving", "a load brakes or drives, not both: make two loads of it")
        return
    for key, does, word in (("braking", braking, "braked"), ("driving", driving, "driven")):
        working = any(wheel.keys.get(word) for wheel in _on_ground(survey, load))
        if does and not working and not survey.of("tow"):
            lifted = " on the ground" if load.keys.get("off_ground") else ""
            why = f"no wheel{lifted} is {word}: write {word} = true where it is, or leave {key} out"
            survey.fault(load, key, why)


def _check_contacts(survey: Survey, load: Entry) -> None:
    """Three contacts carry a vehicle; with supports a load put on by hand needs none."""
    contacts = len(_on_ground(survey, load)) + len(survey.of("tow"))
    if contacts >= 3:
        return
    moves = any(load.keys.get(key) for key in ("braking", "driving", "cornering", "strike"))
    if survey.of("support") and not moves and (not contacts or not survey.of("mass")):
        return
    if survey.of("support"):
        why = "with supports and fewer than three wheels, give forces put on by hand only"
    else:
        why = "a vehicle stands on three or more wheels (a tow counts as one); a part on a bench has supports"
        wheels = survey.of("wheel")
        if any(name.endswith(".left") and other_side(name) not in wheels for name in wheels):
            why += "; `mirror = true` repeats what ends in .left on the right"
    survey.fault(load, "", f"it stands on {contacts} wheels in this load: {why}")
