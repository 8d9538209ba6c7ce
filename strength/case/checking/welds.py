"""Welds: where they sit, and whether the metals may be welded."""

from collections.abc import Iterator

from strength.case.checking.survey import Survey, shape_of
from strength.case.faults import RefusedError
from strength.case.metals import Stores
from strength.case.shape import Bar, Bare, Rigid, Tube
from strength.case.trade.entry import Entry
from strength.library import Metal

SAME = 1e-6  # mm


def check_welds(survey: Survey, stores: Stores) -> None:
    """Tell what is wrong with welds."""
    for weld in survey.of("weld").values():
        name = weld.keys.get("member")
        if name in survey.of("strut") and name not in survey.of("member"):
            why = f"{name!r} is a strut, which has no ends to weld: its ends turn freely; make it a member"
            survey.fault(weld, "member", why)
        elif not survey.unknown(weld, "member", ("member",)):
            _check_seat(survey, weld)
        if isinstance(weld.keys.get("onto"), str):
            _check_host(survey, weld)
        _check_metals(survey, weld, stores)


def _check_seat(survey: Survey, weld: Entry) -> None:
    keys = weld.keys
    part = survey.of("member")[keys["member"]]
    shape, long, inset = shape_of(part), survey.length(part), keys.get("inset", 0.0)
    pattern = keys.get("pattern", "around")
    if isinstance(shape, Rigid):
        survey.fault(weld, "member", f"{part.name!r} is rigid: it has no section that could be welded")
    elif isinstance(shape, Bare) and isinstance(pattern, str):
        why = f"the outline of {part.name!r} is not known: write pattern = {{lines = [...]}}"
        survey.fault(weld, "pattern", why)
    elif isinstance(shape, Tube | Bar) and pattern == "sides":
        survey.fault(weld, "pattern", f"{part.name!r} is round, it has no sides: write 'around'")
    if long is not None and inset > long + SAME:
        why = f"{inset:.4g} mm is beyond the other end: {part.name!r} is {long:.4g} mm long"
        survey.fault(weld, "inset", why)
    end = keys.get("end")
    if end and inset < SAME and part.keys.get(f"{end}_end") == "ball":
        why = f"the end of {part.name!r} turns freely in a ball: weld behind it, with an `inset`"
        survey.fault(weld, "", why)


def _check_host(survey: Survey, weld: Entry) -> None:
    keys = weld.keys
    if survey.unknown(weld, "onto", ("member",)):
        return
    host = survey.of("member")[keys["onto"]]
    if keys["onto"] == keys.get("member"):
        survey.fault(weld, "onto", "it is welded onto itself: name the part it is welded onto")
    elif isinstance(shape_of(host), Rigid):
        survey.fault(weld, "onto", f"{host.name!r} is rigid: it has no metal to weld onto")


def _check_metals(survey: Survey, weld: Entry, stores: Stores) -> None:
    metals = list(_metals(survey, weld, stores))
    hardened = [(what, name) for what, name, metal in metals if not metal.weldable]
    for what, name in hardened:
        metal = stores.metal(name)
        hard = ", ".join(
            text
            for text in (
                "hardened" if metal.quenched else "",
                f"carbon equivalent {metal.carbon_equivalent:.2g}" if metal.carbon_equivalent else "",
            )
            if text
        )
        told = f"{name} ({hard})" if hard else name
        why = f"{what} is of {told}, which must not be welded: bolt it, or take a metal that may be"
        survey.fault(weld, "", why)
    kinds = {metal.kind == "aluminium": name for _, name, metal in metals}
    if len(kinds) == 2:
        survey.fault(weld, "", f"{kinds[False]} cannot be welded to {kinds[True]}: bolt steel to aluminium")
    elif metals and not hardened and weld.keys.get("filler"):
        _, name, metal = metals[0]
        _check_filler(survey, weld, name, metal.kind, stores)


def _metals(survey: Survey, weld: Entry, stores: Stores) -> Iterator[tuple[str, str, Metal]]:
    """What a weld joins: in words, the name of its metal and the metal, as far as it is known."""
    onto = weld.keys.get("onto")
    part = survey.of("member").get(weld.keys.get("member", ""))
    host = survey.of("member").get(onto) if isinstance(onto, str) else None
    named = [(repr(each.name), each.keys.get("material")) for each in (part, host) if each is not None]
    if isinstance(onto, dict):
        named.append(("the plate it is welded onto", onto["material"]))
    for what, name in named:
        if name:
            try:
                yield what, name, stores.metal(name)
            except RefusedError:  # told where it is named
                continue


def _check_filler(survey: Survey, weld: Entry, metal: str, kind: str, stores: Stores) -> None:
    """The filler suits the process and the metal."""
    name = weld.keys["filler"]
    try:
        filler = stores.filler(name)
    except RefusedError:
        return
    brazed = weld.keys.get("process") == "braze"
    if brazed and filler.kind != "bronze":
        survey.fault(weld, "filler", f"{name} is no brazing rod: take one of bronze, or another process")
    elif not brazed and filler.kind == "bronze":
        why = f"{name} is a brazing rod: write process = 'braze', or take a welding filler"
        survey.fault(weld, "filler", why)
    elif (filler.kind == "aluminium") != (kind == "aluminium"):
        survey.fault(
            weld, "filler", f"{name} is a filler for {filler.kind}, but {metal} is {kind}: name another"
        )
