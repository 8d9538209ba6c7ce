"""Rules that guess the places of a starter case; all a designer's choice, from no standard.

Each rule is told in words at the head of the file it makes. All lengths in mm, masses in kg.
"""

from collections.abc import Callable

from strength.case.shape import Box, Tube
from strength.case.starter.answering import Answers

Filling = dict[str, object]

SQUARES = (40.0, 30.0, 25.0, 20.0, 15.0, 12.0)  # stock square tubes
SPREADER = 0.55
THREADS = (8, 10, 12, 16, 20, 24)


def ball_heights(radius: float) -> tuple[int, int]:
    """Heights of the lower and the upper ball: apart by 0.62 x radius, within 110 to 170 mm."""
    half = min(max(0.62 * radius, 110.0), 170.0) / 2
    return round(radius - half), round(radius + half)


def pivot_offset(track: float) -> int:
    """From the middle plane to the lower pivots: 13.5 % of the track, at least 60 mm."""
    return round(max(60.0, 0.135 * track))


def spreader(tube: Tube | Box) -> float:
    """Side of a square tube that fits between the legs: the largest at most 0.85 x their width."""
    across = tube.od if isinstance(tube, Tube) else min(tube.depth, tube.width)
    return next(side for side in SQUARES if side <= 0.85 * across)


def wishbone(answers: Answers) -> Filling:
    """Balls, pivots and shock of the front suspension's left side."""
    half, radius = answers.value("track") / 2, answers.value("wheel-radius")
    low, high = ball_heights(radius)
    pivot = pivot_offset(2 * half)
    ball = round(half - 72.0)
    side = spreader(answers.value("tube"))
    middle = pivot + SPREADER * (ball - pivot)
    bottom = low - 7 + SPREADER * 7
    head = (pivot + 15.0, high + 70.0)
    up = (head[0] - middle, head[1] - bottom)
    lug = (side / 2 + 30.0) / (up[0] ** 2 + up[1] ** 2) ** 0.5
    return {
        "half": round(half),
        "radius": f"{radius:g}",
        "spread": SPREADER,
        "low": low,
        "high": high,
        "pivot_low": low - 7,
        "pivot_high": high + 10,
        "ball": ball,
        "ball_high": round(half - 84.0),
        "pivot": pivot,
        "pivot_out": pivot + 25,
        "spreader": f"square {side:g} x {1.5 if side < 15 else 2} mm",
        "lug": f"flat {side:g} x {8 if side < 20 else 10} mm",
        "foot_y": round(middle + lug * up[0]),
        "foot_z": round(bottom + lug * up[1]),
        "head_y": round(head[0]),
        "head_z": round(head[1]),
    }


def _axle(answers: Answers) -> Filling:
    """How an axle sits in its plate: the step, the weld's leg, the thread that fits."""
    diameter, thick = answers.value("axle").diameter, answers.value("plate").thickness
    return {
        "thick": f"{thick:g}",
        "inset": f"{thick / 2:g}",
        "bore": f"{diameter:g}",
        "step": f"{diameter + 6.0:g}",
        "leg": f"{min(6.0, thick / 2):g}",
        "tail_thread": f"M{max(size for size in THREADS if size <= diameter)}",
    }


def trike(answers: Answers) -> Filling:
    """Everything that the trike's template asks for."""
    radius, base = answers.value("wheel-radius"), answers.value("wheelbase")
    half = answers.value("track") / 2
    tail = min(0.64 * base, base - radius - 50.0)
    front, rear = 125.0 + 0.5 * (tail - 125.0), tail - 60.0
    low, high = ball_heights(radius)
    own = answers.value("own")
    return wishbone(answers) | {
        "base": round(base),
        "caliper_y": round(half - 50.0),
        "caliper_z": round(radius + 0.44 * (high - low)),
        "arm_y": round(half - 60.0),
        "arm_z": round(radius - 0.27 * (high - low)),
        "rack_y": pivot_offset(2 * half) - 15,
        "seat_front": round(front),
        "seat_rear": round(rear),
        "tail": round(tail),
        "rider_x": round((front + rear) / 2),
        "rider_z": round(answers.value("saddle") + 200.0),
        "cargo_z": round(high + 130.0),
        "frame_x": round(0.4 * base),
        "frame_z": round(low + 70.0),
        "frame_mass": f"{0.7 * own:.4g}",
        "wheel_mass": f"{0.1 * own:.4g}",
        **_axle(answers),
    }


def cart(answers: Answers) -> Filling:
    """Everything that the cart's template asks for."""
    radius, base, half = (
        answers.value("wheel-radius"),
        answers.value("wheelbase"),
        answers.value("track") / 2,
    )
    own = answers.value("own")
    return {
        "half": round(half),
        "radius": f"{radius:g}",
        "rail": round(half - 60.0),
        "bed": round(radius + 85.0),
        "bed_rear": round(0.35 * base),
        "bed_front": round(0.4 * base),
        "base": round(base),
        "cargo_z": round(radius + 285.0),
        "frame_mass": f"{0.8 * own:.4g}",
        "wheel_mass": f"{0.1 * own:.4g}",
        "frame_z": round(radius + 95.0),
        **_axle(answers),
    }


def _ground_shares(answers: Answers) -> tuple[float, float]:
    """What the lower ball takes of a force along the ground, and of one at the wheel's middle."""
    low, high = ball_heights(answers.value("wheel-radius"))
    return high / (high - low), (high - answers.value("wheel-radius")) / (high - low)


def arm(answers: Answers) -> Filling:
    """Everything that the arm's template asks for: a lower wishbone and what its ball takes."""
    weight = 9.80665 * answers.value("on-wheel")
    ground, middle = _ground_shares(answers)
    return wishbone(answers) | {
        "stand": round(weight),
        "bump": round(1.8 * weight),
        "stop_up": round(1.4 * weight),
        "stop_back": round(1.4 * 0.6 * weight * ground),
        "bend_up": round(1.3 * weight),
        "bend_in": round(1.3 * 0.4 * weight * ground),
        "pot_up": round(3.0 * weight),
        "pot_back": round(1.0 * weight * middle),
        "kerb_up": round(1.5 * weight),
        "kerb_in": round(1.5 * weight * ground),
    }


def plate(answers: Answers) -> Filling:
    """Everything that the plate's template asks for: a knuckle and the forces on its hub."""
    weight, radius = 9.80665 * answers.value("on-wheel"), answers.value("wheel-radius")
    low, high = ball_heights(radius)
    half = answers.value("track") / 2
    return {
        "half": round(half),
        "radius": f"{radius:g}",
        "low": low,
        "high": high,
        "plate_y": round(half - 45.0),
        **_axle(answers),
        "arm_y": round(half - 60.0),
        "arm_z": round(radius - 0.27 * (high - low)),
        "rod_y": round(half - 300.0),
        "stand": round(weight),
        "bump": round(1.8 * weight),
        "stop_up": round(1.4 * weight),
        "stop_back": round(1.4 * 0.6 * weight),
        "stop_turn": round(1.4 * 0.6 * weight * radius / 1000.0),
        "bend_up": round(1.3 * weight),
        "bend_in": round(1.3 * 0.4 * weight),
        "bend_roll": round(1.3 * 0.4 * weight * radius / 1000.0),
        "pot_up": round(3.0 * weight),
        "pot_back": round(weight),
        "kerb_up": round(1.5 * weight),
        "kerb_in": round(1.5 * weight),
        "kerb_roll": round(1.5 * weight * radius / 1000.0),
    }


FILLINGS: dict[str, Callable[[Answers], Filling]] = {"trike": trike, "cart": cart, "arm": arm, "plate": plate}
