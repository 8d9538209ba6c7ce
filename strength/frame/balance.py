"""Never trust a solve: finiteness, residual, and equilibrium of the whole."""

import numpy as np

from strength.arrays import greatest
from strength.errors import SolveError
from strength.frame.plan import Plan, rigid_motions
from strength.frame.response import Array, Flags, Layout

LEAST = 1e-3  # N: loads under it are what is left where weights and wheel forces cancel, and judged by it
BALANCED = 1e-9  # of the greatest force in that load; for the whole, of all forces by their levers


def check_balance(layout: Layout, ready: Plan, forces: Array, found: tuple[Array, Array, Array]) -> None:
    """Raise SolveError unless every freedom and the whole are in balance to 1e-9.

    forces: scaled loads (freedoms, designs or 1, loads) N. found: as of `recover`; of what parts and loads
    leave over, only supports may take any.
    """
    _, pattern_force, left = found
    links = ready.links
    size = greatest(left)
    if not np.all(np.isfinite(size)) or not np.all(np.isfinite(pattern_force)):
        raise SolveError("a result is not a finite number")
    scale = np.maximum(np.maximum(greatest(forces), LEAST), size)
    if ready.rigid_motions is not None:
        refuse(
            greatest(np.tensordot(ready.rigid_motions, forces, axes=1)), scale, "the loads on the free body"
        )
    refuse(greatest(left[unheld(ready)]), scale, "a point")
    # The sum over a whole frame is judged by the sum of its parts' sizes: on a long frame moments about its
    # middle are many times the greatest force, and so is their round-off.
    motions = rigid_motions(layout, links, ready.loose)
    whole = np.tensordot(motions, forces, axes=1)
    sizes = np.tensordot(np.abs(motions), np.abs(forces), axes=1)
    if np.any(links.held):
        held = motions[:, links.held]
        whole = whole - np.tensordot(held, left[links.held], axes=1)
        sizes = sizes + np.tensordot(np.abs(held), np.abs(left[links.held]), axes=1)
    refuse(greatest(whole), np.maximum(scale, sizes.max(axis=0)), "the reactions and the loads")


def unheld(ready: Plan) -> Flags:
    """Freedoms that no support holds, of points that some part touches (freedoms,)."""
    free: Flags = ~ready.links.held
    free[(6 * ready.loose[:, None] + np.arange(6)).reshape(-1)] = False
    return free


def refuse(wrong: Array, scale: Array, what: str) -> None:
    """Raise SolveError where a force out of balance is over 1e-9 of its scale; arrays broadcast."""
    ratio = wrong / scale
    if ratio.size and float(ratio.max()) > BALANCED:
        raise SolveError(f"{what} out of balance by {float(ratio.max()):.1e} of the greatest force")
