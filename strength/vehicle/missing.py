"""Which of the loads that every vehicle meets a case leaves out."""

from collections.abc import Callable

from strength.case.model import Case, Load

# Own choice, after what breaks on such vehicles: factors mean nothing without these loads.
_KINDS: dict[str, Callable[[Load], bool]] = {
    "a bump (vertical over 1)": lambda load: load.vertical > 1.0,
    "a hard stop (braking)": lambda load: load.braking > 0.0,
    "a bend (cornering)": lambda load: load.cornering != 0.0,
    "a pothole (strike)": lambda load: load.strike is not None and load.strike.inward == 0.0,
    "a sideways kerb (strike with inward)": lambda load: load.strike is not None and load.strike.inward > 0.0,
}


def missing_kinds(case: Case) -> tuple[str, ...]:
    """Kinds of load that no load of the case covers; none for a case without wheels.

    A stop needs a braked wheel, so a case without one is not asked for a hard stop.
    """
    if not case.wheels:
        return ()
    loads: tuple[Load, ...] = case.loads
    return tuple(
        kind
        for kind, covers in _KINDS.items()
        if not any(covers(load) for load in loads)
        and not ("braking" in kind and not any(w.braked for w in case.wheels) and not case.tows)
    )
