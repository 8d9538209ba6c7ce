"""Places on lines and arcs, against circles and straight lines written out."""

import numpy as np

from strength.joints.pieces import Pieces

U = np.array([0.0, 0.3, 0.85, 1.0])
PIECES = Pieces(
    base=np.array([[[3.0, -2.0], [11.0, 7.0], [-4.0, 6.0]], [[2.0, 1.0], [9.0, -5.0], [-8.0, 0.5]]]),
    delta=np.array([[[14.0, 5.0], [0.0, 0.0], [0.0, 0.0]], [[-6.0, 13.0], [0.0, 0.0], [0.0, 0.0]]]),
    radius=np.array([[0.0, 17.0, 23.0], [0.0, 19.0, 29.0]]),
    first=np.array([[0.0, 0.4, 2.1], [0.0, 1.3, 3.7]]),
    span=np.array([0.0, 1.1, 0.7]),
    ends=np.array([True, False, False]),
)


def plain(design: int, piece: int, u: float) -> complex:
    """Base + delta u + radius e^(i angle)."""
    base, delta = (complex(*v[design, piece]) for v in (PIECES.base, PIECES.delta))
    angle = PIECES.first[design, piece] + PIECES.span[piece] * u
    return base + delta * u + PIECES.radius[design, piece] * complex(np.exp(1j * angle))


def test_places() -> None:
    """Of all pieces, and of chosen ones, with and without their slopes."""
    expected = np.array([[[plain(d, k, u) for u in U] for k in range(3)] for d in range(2)])
    row, piece = np.array([1, 0, 1]), np.array([2, 1, 0])
    some = PIECES.chosen(row, piece)
    for (y, z, *_), told in (
        (PIECES.places(U), expected),
        (PIECES.all_at(U), expected),
        (some.places(U), expected[row, piece]),
        (some.at(U), expected[row, piece]),
    ):
        np.testing.assert_allclose(y + 1j * z, told, rtol=1e-12)
