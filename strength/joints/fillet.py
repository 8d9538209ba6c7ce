"""Fillet weld rules: each a quadratic form of the force per length, and the stress it may reach.

A form is four coefficients of q_x^2, q_s^2, q_n^2 and q_x q_n; its square root is a stress.
"""

import numpy as np
from numpy.typing import NDArray

from strength.joints.parents import Parent
from strength.library import Filler
from strength.values import frozen

Array = NDArray[np.float64]

WELD_STRESS = {"steel": 0.60, "stainless": 0.60, "aluminium": 0.48}  # of the filler's strength
BRAZED = 0.40  # own choice, to be proved by coupons
QUALITY = {"good": 1.00, "ordinary": 0.80, "poor": 0.50}  # own choice

RESULTANT = (1.0, 1.0, 1.0, 0.0)
AISC = "AISC 360-16 J2.4, 0.60 x filler strength on the throat"
ALUMINIUM = "Aluminum Design Manual J.2, shear strength of the filler on the throat (0.48, from memory)"
OWN = "0.40 x filler strength on the throat: own choice, prove it with coupons"
DIRECTIONAL = "EN 1993-1-8:2005 4.5.3.2, directional method, worse of both 45 degree throats"
SIMPLIFIED = "EN 1993-1-8:2005 4.5.3.3, simplified method"
EN_1999 = "EN 1999-1-1:2007 8.6.3.3, worse of both 45 degree throats"
TOE = "EN 1999-1-1:2007 8.6.3.4 in form, applied to all metals"


@frozen(kw_only=True, eq=False)
class Rule:
    """One condition: form (designs or 1, pieces or 1, 4), characteristic limit (designs or 1,) [MPa]."""

    form: Array
    limit: Array
    what: str  # in words
    source: str


def throat_rules(
    throat: Array,
    method: str,
    *,
    filler: Filler,
    brazed: bool,
    hollow: bool,
    own: Parent,
    onto: Parent | None,
) -> tuple[tuple[Rule, ...], bool]:
    """Rules of `weld-throat`, quality not yet counted in, and whether the source covers them.

    Allowable basis: |t| against 0.60 (steel, stainless) or 0.48 (aluminium) x the filler's strength.
    Limit-state, steel and stainless: sqrt(2 (tx^2 + |tx tn| + tn^2) + 3 ts^2) against fu/beta_w and
    (|tx| + |tn|)/sqrt(2) against 0.9 fu, onto hollow sections |t| against fu/(sqrt(3) beta_w);
    aluminium: the first against fw. Brazed: 0.40 x the filler's strength on both bases.
    """
    if brazed:
        return (_rule(throat, RESULTANT, np.array([BRAZED * filler.strength]), "throat", OWN),), True
    if method == "allowable":
        limit = np.array([WELD_STRESS[filler.kind] * filler.strength])
        source = ALUMINIUM if filler.kind == "aluminium" else AISC
        return (_rule(throat, RESULTANT, limit, "throat", source),), True
    if filler.kind == "aluminium":
        fw, known = aluminium_strength(filler, own, onto)
        return tuple(_combined(throat, np.array([fw]), EN_1999)), known
    fu = np.minimum(own.ultimate, filler.strength)
    if onto is not None:
        fu = np.minimum(fu, onto.ultimate)
    beta = correlation(own, onto)
    if hollow:
        return (_rule(throat, RESULTANT, fu / (np.sqrt(3.0) * beta), "throat", SIMPLIFIED),), True
    across = [
        _rule(throat, (0.5, 0.0, 0.5, sign), 0.9 * fu, "stress across the throat", DIRECTIONAL)
        for sign in (1.0, -1.0)
    ]
    return (*_combined(throat, fu / beta, DIRECTIONAL), *across), True


def correlation(own: Parent, onto: Parent | None) -> Array:
    """beta_w of the weaker of both parents (EN 1993-1-8 4.5.3.2(7)); of equals, the greater."""
    beta = np.full(own.ultimate.shape, own.metal.beta_w)
    if onto is None:
        return beta
    other = np.full(beta.shape, onto.metal.beta_w)
    equal = onto.ultimate == own.ultimate
    weaker = np.where(onto.ultimate < own.ultimate, other, beta)
    return np.where(equal, np.maximum(beta, other), weaker)


def aluminium_strength(filler: Filler, own: Parent, onto: Parent | None) -> tuple[float, bool]:
    """Weld strength fw [MPa], the lower of two parents, and whether EN 1999-1-1 Table 8.8 has them.

    A parent that the table does not pair with this filler counts with the table's least strength.
    The user's own filler has its own strength.
    """
    metals = [own.metal] if onto is None else [own.metal, onto.metal]
    found = [filler.fw(metal) for metal in metals]
    least = min(filler.by_parent.values(), default=filler.strength)
    return min(least if fw is None else fw for fw in found), None not in found


def toe_rules(
    leg: Array, *, own: Parent, onto: Parent | None, wall: Array, host_wall: Array | None
) -> tuple[Rule, ...]:
    """Rules of `weld-toe`: both faces over the leg, and both walls over their thickness.

    wall: (designs, pieces or 1) of the member, nan where there is none to judge; host_wall:
    (designs,) or None.
    """
    other = own if onto is None else onto
    rules = [
        _rule(leg, (3.0, 3.0, 1.0, 0.0), own.ultimate, f"the weld's face on {own.name}", TOE),
        _rule(leg, (1.0, 3.0, 3.0, 0.0), other.ultimate, f"the weld's face on {other.name}", TOE)
        if onto is not None
        else _rule(leg, (1.0, 3.0, 3.0, 0.0), own.ultimate, "the weld's face on the other part", TOE),
    ]
    if np.all(np.isfinite(wall)):
        form = np.array([1.0, 3.0, 0.0, 0.0]) / wall[..., None] ** 2
        rules.append(Rule(form=form, limit=own.ultimate, what=f"the wall of {own.name}", source=TOE))
    if onto is not None and host_wall is not None and np.all(np.isfinite(host_wall)):
        form = np.array([3.0, 0.0, 0.0, 0.0]) / host_wall[:, None, None] ** 2
        what = "the plate" if onto.name == "the plate" else f"the wall of {onto.name}"
        rules.append(Rule(form=form, limit=onto.ultimate, what=what, source=TOE))
    return tuple(rules)


def _combined(throat: Array, limit: Array, source: str) -> list[Rule]:
    """sqrt(2 (tx^2 + |tx tn| + tn^2) + 3 ts^2): a rule for each 45 degree throat."""
    return [_rule(throat, (2.0, 3.0, 2.0, sign), limit, "combined stress", source) for sign in (2.0, -2.0)]


def _rule(over: Array, form: tuple[float, float, float, float], limit: Array, what: str, source: str) -> Rule:
    return Rule(form=np.array(form) / over[:, None, None] ** 2, limit=limit, what=what, source=source)
