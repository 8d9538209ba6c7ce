"""Trade parts whose places are found [mm], body axes."""

from strength.case.model import Vector
from strength.case.shape import Shape
from strength.case.trade.axes import Axes, member_axes
from strength.case.trade.entry import Place
from strength.values import frozen


@frozen(kw_only=True)
class PlacedWishbone:
    """Both pivots and the ball."""

    front: Vector
    rear: Vector
    ball: Vector


@frozen(kw_only=True)
class PlacedKnuckle:
    """Both balls, and the centre and unit axle of the wheel."""

    lower: Vector
    upper: Vector
    hub: Vector
    axle: Vector


@frozen(kw_only=True)
class Host:
    """A member that carries a bracket or is welded onto: its line, its shape and its `up`.

    stands: its ends and via points as places, the two ends first. free: whether its start and its end
    turn freely on what they are joined to.
    """

    name: str
    start: Vector
    end: Vector
    shape: Shape
    up: Vector | None = None
    stands: tuple[Place, ...] = ()
    free: tuple[bool, bool] = (False, False)

    @property
    def axes(self) -> Axes | None:
        """Its axes; None where they are not defined."""
        return member_axes(self.start, self.end, self.up)
