"""The wheel forces of a load by hand: lean, what each mass feels, balance, shares, grip."""

import math

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Load, Wheel
from strength.studies.explain.sheet import CLOSE, Line, Sheet
from strength.studies.explain.subject import keyed
from strength.units import GRAVITY
from strength.vehicle import balance
from strength.vehicle.faults import pushers, stands_by_hand
from strength.vehicle.ground import Ground, ground, weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.sheet import Balanced, TowForce, WheelForce
from strength.vehicle.strike import standing_load

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

ALIKE = "own choice: a rigid body on equal springs that cannot pull; three contacts leave no choice"


@attrs.frozen(kw_only=True)
class Weighed:
    """One mass: its weight at 1 g [N], and its place, the height counted from the contacts [mm]."""

    name: str
    weight: float
    x: float
    y: float
    height: float


@attrs.frozen(kw_only=True)
class Wheeled:
    """One wheel or hitch: the load's force [N] and what this sheet comes to."""

    name: str
    told: tuple[float, float, float]
    found: tuple[float, float, float]


@attrs.frozen(kw_only=True)
class ExplainedLoad:
    """A load worked out again; by_hand: it has only forces put on by hand."""

    load: Balanced
    asks: str
    masses: tuple[Weighed, ...]
    lines: tuple[Line, ...]
    wheels: tuple[Wheeled, ...]
    units: str
    by_hand: bool = False

    @property
    def off(self) -> float:
        """Greatest difference of a force, relative to the greatest force."""
        told = np.array([wheel.told for wheel in self.wheels]).reshape(-1, 3)
        found = np.array([wheel.found for wheel in self.wheels]).reshape(-1, 3)
        most = float(np.abs(told).max(initial=0.0))
        return float(np.abs(found - told).max(initial=0.0)) / most if most > 0.0 else 0.0

    @property
    def agrees(self) -> bool:
        """Whether it comes to the load's forces."""
        return self.off <= CLOSE


def explain_load(case: Case, name: str) -> ExplainedLoad:
    """The forces of the road on each wheel in one load, worked out from the masses."""
    load = next(one for one in case.loads if one.name == name)
    told = next(one for one in balance(case) if one.name == name)
    if stands_by_hand(case, load):
        text = "Only forces put on by hand act in this load; no wheel stands on the road."
        return ExplainedLoad(
            load=told, asks=text, masses=(), lines=(), wheels=(), units=case.units, by_hand=True
        )
    sheet = Sheet()
    stand = ground(case, load.off_ground)
    _write_motion(sheet, case, load, told)
    masses = tuple(
        Weighed(
            name=mass.name,
            weight=mass.mass * GRAVITY / 1000.0,
            x=mass.at[0],
            y=mass.at[1],
            height=mass.at[2] - stand.level,
        )
        for mass in case.masses
    )
    _write_sums(sheet, case, stand)
    takers = pushers(case, load)
    names = [*stand.wheels, *(tow.name for tow in case.tows)]
    _write_balance(sheet, case, stand, names, takers)
    _write_shares(sheet, stand, names, takers, told)
    found = {
        name: tuple(sheet[f"{axis}_{n}"] for axis in "XYZ") if f"Z_{n}" in sheet else (0.0, 0.0, 0.0)
        for n, name in enumerate(names, 1)
    }
    if load.strike is not None:
        found[load.strike.wheel] = _write_strike(sheet, case, load)
    _write_grip(sheet, case, names)
    every: list[WheelForce | TowForce] = [*told.wheels, *told.tows]
    return ExplainedLoad(
        load=told,
        asks="What does the road put on each wheel? Weight and inertia of all masses, in balance.",
        masses=masses,
        lines=sheet.lines,
        wheels=tuple(
            Wheeled(name=one.name, told=one.force, found=_three(found.get(one.name, (0.0, 0.0, 0.0))))
            for one in every
        ),
        units=case.units,
    )


def _three(values: tuple[float, ...]) -> tuple[float, float, float]:
    x, y, z = (value + 0.0 for value in values)
    return x, y, z


def _write_motion(sheet: Sheet, case: Case, load: Load, told: Balanced) -> None:
    """Accelerations, lean, and what a unit of weight feels."""
    key = keyed(load.path, load.name)
    if told.scaled_to < 1.0:
        sheet.say(
            f"The load as written would tip the vehicle: it is taken at {told.scaled_to:.4g} of its "
            "accelerations, where the first wheel is about to lift."
        )
    forward = (told.driving - told.braking) / GRAVITY
    origin = key if told.scaled_to == 1.0 else f"{key}, times {told.scaled_to:.6g}"
    sheet.given("a_x", forward, "1", "driving less braking, in g", origin)
    sheet.given("a_y", told.cornering / GRAVITY, "1", "cornering in g, + in a left turn", origin)
    sheet.given("V", told.vertical, "1", "vertical, in g", key)
    sheet.given("p_max", case.leaning, "angle", "greatest lean", "case: vehicle.leaning")
    sign = "-" if told.cornering < 0.0 else ""
    sheet.step("p", f"{sign}min(p_max, atan(abs(a_y)))", "angle", "lean, + to the left")
    sheet.step("f_x", "-a_x", "1", "forward, what each unit of weight feels")
    sheet.step("f_y", "V*sin(p) - a_y*cos(p)", "1", "to the left of the body")
    sheet.step("f_z", "-a_y*sin(p) - V*cos(p)", "1", "upward of the body")


def _write_sums(sheet: Sheet, case: Case, stand: Ground) -> None:
    """Sums over the table of masses, and what the contacts must give."""
    sums = weights(case.masses, stand.level)
    table = "sum over the table of masses"
    sheet.given("W", sums.total * GRAVITY, "force", "weight of all", table)
    sheet.given("W_x", sums.x * GRAVITY, "moment", "weight times x", table)
    sheet.given("W_y", sums.y * GRAVITY, "moment", "weight times y", table)
    sheet.given("W_h", sums.h * GRAVITY, "moment", "weight times height", table)


def _write_balance(
    sheet: Sheet, case: Case, stand: Ground, names: list[str], takers: tuple[str, ...]
) -> None:
    """Three equations and the wheel loads that meet them."""
    sheet.step("S", "-W*f_z", "force", "the contacts together must carry")
    lifted = ""
    if stand.has_tow and not takers:
        sheet.given("h_t", stand.tow_height, "length", "height of the hitch", f"case: {case.tows[0].path}")
        lifted = " - h_t*W*f_x"
    sheet.step("S_x", f"W_h*f_x - W_x*f_z{lifted}", "moment", "their loads times x must come to")
    sheet.step("S_y", "W_h*f_y - W_y*f_z", "moment", "their loads times y must come to")
    sheet.step("ratio", "f_y/f_z", "1", "side force over load, alike at every contact")
    columns = stand.columns(sheet["ratio"])
    carried = _carried(sheet, stand, columns)
    goal = np.array([sheet["S"], sheet["S_x"], sheet["S_y"]])
    part = columns[:, carried]
    size = np.array([1.0, *np.maximum(np.abs(part[1:]).max(axis=1), 1.0)])
    scaled = part / size[:, None]
    level = np.linalg.pinv(scaled @ scaled.T, rcond=1e-10, hermitian=True) @ (goal / size) / size
    for symbol, value, dimension, what in zip(
        ("l", "l_x", "l_y"),
        level,
        ("force", "flow", "flow"),
        ("load that all contacts share", "its rise along x", "its rise along y"),
        strict=True,
    ):
        sheet.given(symbol, value, dimension, f"{what}, solved from the three equations", ALIKE)
    for n, name in enumerate(names, 1):
        key = f"case: wheels or tows, {name}"
        if not carried[n - 1]:
            sheet.given(f"Z_{n}", 0.0, "force", f"{name} lifts: a spring that cannot pull", key)
            continue
        sheet.given(f"x_{n}", columns[1, n - 1], "length", f"x of {name}", key)
        sheet.given(f"y_{n}", columns[2, n - 1], "length", f"y of {name}", key)
        sheet.step(f"Z_{n}", f"l + l_x*x_{n} + l_y*y_{n}", "force", f"load on {name}")
    on = [n for n, holds in enumerate(carried, 1) if holds]
    sheet.step("S_1", " + ".join(f"Z_{n}" for n in on), "force", "tried: must be S")
    sheet.step("S_2", " + ".join(f"Z_{n}*x_{n}" for n in on), "moment", "tried: must be S_x")
    sheet.step("S_3", " + ".join(f"Z_{n}*y_{n}" for n in on), "moment", "tried: must be S_y")


def _carried(sheet: Sheet, stand: Ground, columns: Array) -> Flags:
    """Which contacts carry something: those that the balance of all does not lift."""
    goal = np.array([[sheet["S"], sheet["S_x"], sheet["S_y"]]])
    for slack in (1e-11, 1e-9):
        loads, held = least_squares_loads(columns, len(stand.wheels), goal, slack)
        if held[0]:
            break
    carries: Flags = loads[0] != 0.0
    carries[len(stand.wheels) :] = True
    return carries


def _write_shares(
    sheet: Sheet, stand: Ground, names: list[str], takers: tuple[str, ...], told: Balanced
) -> None:
    """Side forces in proportion to the load; forward forces by the wheels that brake or drive."""
    for n, name in enumerate(names, 1):
        sheet.step(f"Y_{n}", f"ratio*Z_{n}", "force", f"side force on {name}, + to the left")
    numbers = [n for n, name in enumerate(names, 1) if name in takers]
    word = "braked" if told.driving == 0.0 else "driven"
    if numbers:
        sheet.step(
            "Z_t", " + ".join(f"Z_{n}" for n in numbers), "force", f"load on the {word} wheels together"
        )
    for n, name in enumerate(names, 1):
        if n in numbers:
            share = f"Z_{n}/Z_t" if sheet["Z_t"] > 0.0 else f"1/{len(numbers)}"
            sheet.step(f"X_{n}", f"-W*f_x*{share}", "force", f"forward force on {name}, {word}")
        elif not numbers and n > len(stand.wheels):
            sheet.step(f"X_{n}", "-W*f_x", "force", f"forward force on {name}: no wheel {word}")
        else:
            sheet.given(f"X_{n}", 0.0, "force", f"forward force on {name}: not {word}", "case: wheels")


def _write_strike(sheet: Sheet, case: Case, load: Load) -> tuple[float, float, float]:
    """The struck wheel's force, which takes the place of its share."""
    strike = load.strike
    if strike is None:
        raise ValueError(load.name)
    wheel = next(one for one in case.wheels if one.name == strike.wheel)
    key = keyed(load.path, load.name, "strike")
    y = next(point.at[1] for point in case.points if point.name == wheel.centre)
    sheet.say(f"{strike.wheel} is struck: its force takes the place of the one above.")
    what = f"load on {strike.wheel} standing still at 1 g on all wheels, not leaning"
    sheet.given("N_0", standing_load(case, load), "force", what, "the same balance with a_x = a_y = 0, V = 1")
    for symbol, value, word in (
        ("up", strike.up, "upward"),
        ("back", strike.back, "rearward"),
        ("inward", strike.inward, "inward"),
    ):
        sheet.given(symbol, value, "1", f"multiple of it {word}", f"{key}.{symbol}")
    sheet.step("X_s", "-N_0*back", "force", "struck, forward")
    sheet.step(
        "Y_s", f"{'-' if math.copysign(1.0, y) > 0.0 else ''}N_0*inward", "force", "struck, to the left"
    )
    sheet.step("Z_s", "N_0*up", "force", "struck, upward")
    return sheet["X_s"], sheet["Y_s"], sheet["Z_s"]


def _write_grip(sheet: Sheet, case: Case, names: list[str]) -> None:
    """How much of its grip each wheel uses, judged on the road."""
    sheet.say("Grip is judged on the road, which a leaning body sees banked by p.")
    grip = {wheel.name: wheel for wheel in case.wheels}
    for n, name in enumerate(names, 1):
        wheel: Wheel | None = grip.get(name)
        if wheel is None or sheet[f"Z_{n}"] == 0.0:
            continue
        sheet.step(f"N_{n}", f"Z_{n}*cos(p) - Y_{n}*sin(p)", "force", f"{name}, square to the road")
        sheet.step(f"H_{n}", f"hypot(X_{n}, Y_{n}*cos(p) + Z_{n}*sin(p))", "force", f"{name}, along the road")
        sheet.given(f"mu_{n}", wheel.grip, "1", f"grip of {name}", keyed(wheel.path, name, "grip"))
        if sheet[f"N_{n}"] > 0.0:
            sheet.step(
                f"used_{n}", f"H_{n}/(mu_{n}*N_{n})", "1", f"of its grip {name} uses; over 1 it slides"
            )
