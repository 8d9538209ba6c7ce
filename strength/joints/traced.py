"""Places of a weld's line with what the force through the weld does there."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.saddle import Cylinder
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Traced:
    """Places x, y, z on lines and unit vectors sx, sy, sz along them, all of one shape (rows, ...)."""

    x: Array
    y: Array
    z: Array
    sx: Array
    sy: Array
    sz: Array

    def by_force(self, centroid: Array) -> Array:
        """What q_x, q_s and q_n are of `direct` and `spin` of a pull: (rows, 3, 6, places).

        centroid: (rows, 3), from which arms are taken. With t = sqrt(1 - sx^2): x = (e - sx s)/t and
        n = s cross x = (0, sz, -sy)/t, so that no vector is made.
        """
        rows = self.x.shape[0]
        wide = [1] * (self.x.ndim - 1)
        ax, ay, az = (
            place - centroid[:, n].reshape(-1, *wide) for n, place in enumerate((self.x, self.y, self.z))
        )
        sx, sy, sz = self.sx, self.sy, self.sz
        tall = np.sqrt(np.maximum(1.0 - sx * sx, 1e-30))
        lean = -sx / tall
        ny, nz = sz / tall, -sy / tall
        xy, xz = lean * sy, lean * sz
        out = np.empty((rows, 3, 6, *self.x.shape[1:]))
        for n, parts in enumerate(
            (
                (tall, xy, xz, ay * xz - az * xy, az * tall - ax * xz, ax * xy - ay * tall),
                (sx, sy, sz, ay * sz - az * sy, az * sx - ax * sz, ax * sy - ay * sx),
                (0.0, ny, nz, ay * nz - az * ny, -ax * nz, ax * ny),
            )
        ):
            for k, part in enumerate(parts):
                out[:, n, k] = part
        return out.reshape(rows, 3, 6, -1)

    def force(self, centroid: Array, direct: Array, spin: Array) -> tuple[Array, Array, Array]:
        """q_x, q_s and q_n (rows, ...) under one pull a row: direct + spin x arm, all (rows, 3)."""
        wide = [1] * (self.x.ndim - 1)
        (cx, cy, cz), (wx, wy, wz), (dx, dy, dz) = (
            values.T.reshape(3, -1, *wide) for values in (centroid, spin, direct)
        )
        ax, ay, az = self.x - cx, self.y - cy, self.z - cz
        qx = dx + wy * az - wz * ay
        qy = dy + wz * ax - wx * az
        qz = dz + wx * ay - wy * ax
        in_section = qy * self.sy + qz * self.sz
        tall = np.sqrt(np.maximum(1.0 - self.sx * self.sx, 1e-30))
        return (
            qx * tall - self.sx * in_section / tall,
            qx * self.sx + in_section,
            (qy * self.sz - qz * self.sy) / tall,
        )


def traced(cylinder: Cylinder | None, y: Array, z: Array, dy: Array, dz: Array) -> Traced:
    """Places in the section's plane and their derivatives, lifted onto the host's surface."""
    if cylinder is None:
        size = np.hypot(dy, dz)
        size = np.where(size > 0.0, size, 1.0)
        flat = np.zeros_like(y)
        return Traced(x=flat, y=y, z=z, sx=flat, sy=dy / size, sz=dz / size)
    x, dx = cylinder.lift(y, z, dy, dz)
    size = np.sqrt(dx * dx + dy * dy + dz * dz)
    size = np.where(size > 0.0, size, 1.0)
    return Traced(x=x, y=y, z=z, sx=dx / size, sy=dy / size, sz=dz / size)
