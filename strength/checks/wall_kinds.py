"""Kinds of joints on walls: those of one make-up are judged together."""

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.walls import WallJoint
from strength.values import frozen


@frozen(kw_only=True)
class MakeUp:
    """What the joints of one table have in common.

    on_tube: the host is a round tube, else a box. along: a plate whose width lies along the host, or a box
    whose depth does. crossed: another member stands opposite; not told of round members on tubes, whose
    table has both in it.
    """

    on_tube: bool
    round: bool
    plate: bool
    along: bool
    crossed: bool

    @property
    def is_chord(self) -> bool:
        """Whether round members stand on round tubes."""
        return self.on_tube and self.round


def make_up(joint: WallJoint) -> MakeUp | None:
    """The make-up of a joint; None where no table has it."""
    host, shape = joint.meeting.host, joint.effect.seat.shape
    if not isinstance(host.shape, Tube | Box) or not isinstance(shape, Tube | Bar | Flat | Box):
        return None
    on_tube, is_round = isinstance(host.shape, Tube), isinstance(shape, Tube | Bar)
    _, y, z = host.axes[0].tolist()
    return MakeUp(
        on_tube=on_tube,
        round=is_round,
        plate=isinstance(shape, Flat),
        along=not is_round and abs(z) >= abs(y),
        crossed=joint.is_crossed and not (on_tube and is_round),
    )
