"""How far each wheel moves and turns because the structure gives."""

import numpy as np

from strength.case.model import Case
from strength.frame.response import Array, Layout, Response
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class WheelMovement:
    """Movement of wheels; body axes."""

    names: tuple[str, ...]
    moved: Array  # (designs, loads, wheels, 3) mm, of the centre
    toe: Array  # (designs, loads, wheels) rad, toe-in positive
    camber: Array  # (designs, loads, wheels) rad, top outward positive


def wheel_movement(case: Case, layout: Layout, response: Response) -> WheelMovement:
    """Movement of each wheel from the displacement of its centre.

    toe = -sign(y) t_z, camber = -sign(y) t_x, with t the rotation at the centre [rad] and sign(0) = 1.
    """
    at = np.array([layout.names.index(wheel.centre) for wheel in case.wheels], dtype=np.intp)
    side = np.where(layout.points[at, 1] < 0.0, -1.0, 1.0)
    moves = response.displacements[:, :, at]
    return WheelMovement(
        names=tuple(wheel.name for wheel in case.wheels),
        moved=moves[..., :3],
        toe=-side * moves[..., 5],
        camber=-side * moves[..., 3],
    )
