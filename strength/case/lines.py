"""Each kind of part as one line of its plural table."""

from collections.abc import Callable
from typing import Any

from strength.case.dropout import Dropout
from strength.case.model import (
    Bolt,
    Clamp,
    HandForce,
    Hole,
    Load,
    Mass,
    Member,
    Plate,
    Point,
    Shoulder,
    Sleeve,
    Strut,
    Stud,
    Support,
    Tow,
    Vector,
    Weld,
    Wheel,
)
from strength.case.writing import amount, array, quoted, section, table, truth

Keys = dict[str, str | None]


def _mm(value: float | None) -> str | None:
    return None if value is None else amount(value, "mm")


def _way(value: Vector | None) -> str | None:
    return None if value is None else amount(value, "")


def _number(value: float | None) -> str | None:
    return None if value is None else repr(value)


def _word(value: str | None) -> str | None:
    return quoted(value) if value else None


def _only(value: bool | None) -> str | None:
    return None if value is None else truth(value)


def point(part: Point) -> str:
    """A point: just its vector."""
    return amount(part.at, "mm")


def _straight(part: Member | Strut) -> Keys:
    return {
        "material": _word(part.material),
        "up": _way(part.up),
        "buckling_factor": _number(part.buckling_factor),
        "only_path": truth(True) if part.only_path else None,
    }


def member(part: Member) -> Keys:
    """A member."""
    return {
        "from": quoted(part.start),
        "to": quoted(part.end),
        "via": array(quoted(name) for name in part.via) if part.via else None,
        "section": section(part.shape),
        "from_end": None if part.from_end == "fixed" else quoted(part.from_end),
        "to_end": None if part.to_end == "fixed" else quoted(part.to_end),
        "hinge_axis": _way(part.hinge_axis),
        **_straight(part),
    }


def strut(part: Strut) -> Keys:
    """A strut."""
    return {
        "from": quoted(part.start),
        "to": quoted(part.end),
        "stiffness": None if part.stiffness is None else amount(part.stiffness, "N/mm"),
        "section": None if part.shape is None else section(part.shape),
        **_straight(part),
    }


def support(part: Support) -> Keys:
    """A support."""
    words = [word for word, held in zip(("x", "y", "z", "rx", "ry", "rz"), part.hold, strict=True) if held]
    return {"at": quoted(part.at), "hold": quoted("all" if len(words) == 6 else " ".join(words))}


def wheel(part: Wheel) -> Keys:
    """A wheel."""
    return {
        "centre": quoted(part.centre),
        "radius": _mm(part.radius),
        "axle": _way(part.axle),
        "braked": truth(part.braked),
        "driven": truth(part.driven),
        "caliper": _word(part.caliper),
        "grip": repr(part.grip),
    }


def tow(part: Tow) -> Keys:
    """A hitch."""
    return {"at": quoted(part.at)}


def mass(part: Mass) -> Keys:
    """A mass."""
    return {
        "mass": amount(part.mass, "kg"),
        "at": amount(part.at, "mm"),
        "carried_by": array(quoted(name) for name in part.carried_by) if part.carried_by else None,
        "payload": truth(part.payload),
        "gyration": _mm(part.gyration) if part.gyration else None,
    }


def load(part: Load) -> Keys:
    """A load; a bend to one side is written with its `turn`."""
    struck = part.strike
    ease = {
        word: amount(value, "mm/s^2") if value else None
        for word, value in (
            ("braking", part.braking),
            ("driving", part.driving),
            ("cornering", abs(part.cornering)),
        )
    }
    return {
        "severity": quoted(part.severity),
        "vertical": repr(part.vertical),
        **ease,
        "turn": quoted("left" if part.cornering > 0 else "right") if part.cornering else None,
        "strike": None
        if struck is None
        else table(
            {
                "wheel": quoted(struck.wheel),
                "up": repr(struck.up),
                "back": repr(struck.back),
                "inward": repr(struck.inward),
            }
        ),
        "off_ground": array(quoted(name) for name in part.off_ground) if part.off_ground else None,
        "forces": array(_force(force) for force in part.forces) if part.forces else None,
    }


def _force(part: HandForce) -> str:
    return table(
        {"at": quoted(part.at), "force": amount(part.force, "N"), "moment": amount(part.moment, "N*mm")}
    )


def _plate(part: Plate) -> str:
    return table(
        {
            "thickness": _mm(part.thickness),
            "material": _word(part.material),
            "edge": _mm(part.edge) if part.edge else None,
            "hole": _mm(part.hole) if part.hole else None,
        }
    )


def _joint(part: Any) -> Keys:
    return {"member": quoted(part.member), "end": quoted(part.end)}


def weld(part: Weld) -> Keys:
    """A weld."""
    lines = {"lines": array(amount(line, "mm") for line in part.lines)}
    onto = part.onto
    return {
        **_joint(part),
        "inset": _mm(part.inset),
        "pattern": table({**lines}) if part.pattern == "lines" else quoted(part.pattern),
        "leg": _mm(part.leg),
        "filler": quoted(part.filler),
        "process": quoted(part.process),
        "quality": quoted(part.quality),
        "onto": _plate(onto) if isinstance(onto, Plate) else _word(onto),
        "method": None if part.method == "line" else quoted(part.method),
        "directional": truth(True) if part.directional else None,
        "only_path": _only(part.only_path),
    }


def bolt(part: Bolt) -> Keys:
    """A bolt."""
    return {
        **_joint(part),
        "axis": _way(part.axis),
        "size": quoted(part.size.text),
        "class": _word(part.grade),
        "shear_planes": str(part.shear_planes),
        "thread_in_shear": truth(part.thread_in_shear),
        "gap": _mm(part.gap),
        "group": array(amount(place, "mm") for place in part.group) if part.group else None,
        "plates": array(_plate(plate) for plate in part.plates) if part.plates else None,
        "lug": None if part.lug is None else table({"end": _mm(part.lug[0]), "side": _mm(part.lug[1])}),
        "only_path": _only(part.only_path),
    }


def stud(part: Stud) -> Keys:
    """A stud."""
    rating = {"radial": part.rating_radial, "axial": part.rating_axial}
    rated = {word: amount(value, "N") for word, value in rating.items() if value is not None}
    return {
        **_joint(part),
        "axis": _way(part.axis),
        "size": quoted(part.size.text),
        "class": _word(part.grade),
        "reach": _mm(part.reach),
        "engaged": _mm(part.engaged),
        "into": table({"material": quoted(part.into)}) if part.into else None,
        "rating": table({**rated}) if rated else None,
        "only_path": _only(part.only_path),
    }


def hole(part: Hole) -> Keys:
    """A hole."""
    return {
        "member": quoted(part.member),
        "along": repr(part.along),
        "diameter": _mm(part.diameter),
        "across": quoted(part.across),
        "off_centre": _mm(part.off_centre),
    }


def shoulder(part: Shoulder) -> Keys:
    """A step in a bar."""
    return {
        **_joint(part),
        "inset": _mm(part.inset),
        "larger": _mm(part.larger),
        "fillet": _mm(part.fillet),
        "root": quoted(f"thread {part.root}") if part.root else None,
    }


def sleeve(part: Sleeve) -> Keys:
    """Tube in tube."""
    bolted = None
    if part.bolt is not None:
        bolted = table({"size": quoted(part.bolt.text), "class": _word(part.grade)})
    return {
        **_joint(part),
        "outer": quoted(part.outer) if isinstance(part.outer, str) else section(part.outer),
        "overlap": _mm(part.overlap),
        "bolt": bolted,
        "slot": _mm(part.slot),
        "only_path": _only(part.only_path),
    }


def clamp(part: Clamp) -> Keys:
    """A split clamp."""
    return {
        **_joint(part),
        "diameter": _mm(part.diameter),
        "bolts": quoted(f"{part.bolt_count} x {part.bolt.text}"),
        "class": _word(part.grade),
        "friction": repr(part.friction),
        "only_path": _only(part.only_path),
    }


def dropout(part: Dropout) -> Keys:
    """A slot for an axle with flats."""
    axle = {
        "flats": _mm(part.flats),
        "diameter": _mm(part.diameter),
        "material": _word(part.axle_material),
    }
    return {
        **_joint(part),
        "thickness": _mm(part.thickness),
        "slot": _mm(part.slot),
        "axle": table({**axle}),
        "torque": amount(part.torque, "N*mm"),
        "material": _word(part.material),
        "only_path": _only(part.only_path),
    }


# plural -> how a part of it is written; in the order in which they stand in a file
LINES: dict[str, Callable[[Any], Keys | str]] = {
    "points": point,
    "members": member,
    "struts": strut,
    "supports": support,
    "wheels": wheel,
    "tows": tow,
    "masses": mass,
    "loads": load,
    "welds": weld,
    "bolts": bolt,
    "studs": stud,
    "holes": hole,
    "shoulders": shoulder,
    "sleeves": sleeve,
    "clamps": clamp,
    "dropouts": dropout,
}
