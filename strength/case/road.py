"""The road that fatigue is judged by."""

from strength.values import frozen


@frozen(kw_only=True)
class RoadBlock:
    """One cycle goes from load `start` to load `end` and back."""

    start: str
    end: str
    per_km: float


@frozen(kw_only=True)
class Road:
    """What the vehicle rides over: distance [km] and its blocks."""

    distance: float
    blocks: tuple[RoadBlock, ...] = ()
