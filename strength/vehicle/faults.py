"""What cannot be balanced, told before it is tried."""

from strength.case.model import Case, Load
from strength.errors import BalanceError
from strength.vehicle.ground import Ground, Weights


def stands_by_hand(case: Case, load: Load) -> bool:
    """Whether this load needs no wheels: the structure is held and only hand-put forces act.

    Carried masses still weigh (`vertical`).
    """
    moves = load.braking or load.driving or load.cornering or load.strike is not None
    contacts = len(case.wheels) - len(set(load.off_ground)) + len(case.tows)
    return bool(case.supports) and not moves and contacts < 3


def pushers(case: Case, load: Load) -> tuple[str, ...]:
    """Wheels on the ground that share X: the braked ones when braking, else the driven ones.

    () where none brakes (drives), so that a hitch would take X.
    """
    standing = [w for w in case.wheels if w.name not in load.off_ground]
    if load.driving != 0.0:
        return tuple(w.name for w in standing if w.driven)
    return tuple(w.name for w in standing if w.braked)


def check_load(case: Case, load: Load, stand: Ground, masses: Weights) -> None:
    """BalanceError where the load asks for what cannot be had."""
    why = _why_not(case, load, stand, masses)
    if why:
        raise BalanceError(load.name, why)


def _why_not(case: Case, load: Load, stand: Ground, masses: Weights) -> str:
    contacts = stand.x.size
    if load.braking != 0.0 and load.driving != 0.0:
        return "brakes and drives at once: give one of `braking` and `driving`"
    if contacts < 3:
        held = ", or let it act by `forces` alone" if case.supports else ", or hold the structure by supports"
        return (
            f"{contacts} wheels and hitches on the ground cannot stand, at least three must"
            f"{held}; see `off_ground`"
        )
    if masses.total <= 0.0 and not case.supports:
        return "the vehicle has no mass, so its wheels carry nothing: add masses"
    if (load.braking or load.driving) and not case.tows and not pushers(case, load):
        word, key = ("brakes", "braked") if load.braking else ("drives", "driven")
        return f"no wheel on the ground {word}: set `{key} = true` on a wheel"
    return _strike_fault(case, load)


def _strike_fault(case: Case, load: Load) -> str:
    strike = load.strike
    if strike is None:
        return ""
    wheel = next((w for w in case.wheels if w.name == strike.wheel), None)
    if wheel is None:
        return f"strikes {strike.wheel!r}, which is no wheel of the case"
    if load.cornering != 0.0:
        return "a strike in a bend is not provided for: leave out `cornering`, or the strike"
    y = next(p.at[1] for p in case.points if p.name == wheel.centre)
    if strike.inward != 0.0 and abs(y) < 1.0:
        return f"{wheel.name} stands in the middle plane, so `inward` has no side: leave it out"
    return ""
