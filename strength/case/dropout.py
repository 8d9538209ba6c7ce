"""The dropout of a hub motor's axle."""

from strength.case.shape import End
from strength.values import frozen


@frozen(kw_only=True)
class Dropout:
    """A slot that keeps an axle with two flats from turning; sizes [mm], torque [N*mm]."""

    name: str
    member: str
    end: End
    thickness: float
    slot: float
    flats: float  # across them
    diameter: float  # of the axle beside them
    torque: float
    material: str = ""  # of the dropout; "": the member's own
    axle_material: str = ""  # "": taken as no softer
    only_path: bool | None = None
    path: str = ""
