"""Members on walls side by side, against what is worked out for each of them alone."""

import numpy as np
import pytest

from strength.case.shape import Bar, Tube
from strength.checks.wall_columns import columns_alike, wall_columns
from strength.checks.walls import host_forces
from strength.checks.weld_groups import forces_through
from tests.checks.test_late import contexts


@pytest.mark.parametrize("name", ["bracken-revised", "quad", "hitch-arm"])
@pytest.mark.parametrize("method", ["allowable", "limit-state"])
def test_each_as_by_itself(name: str, method: str) -> None:
    """N and both moments through the weld, and the host's greatest compression by N/A and M/W."""
    context = next(iter(contexts(name, method)))
    bars, factors = context.bars, context.factors
    every = [(columns, n) for columns in columns_alike(context).values() for n in range(len(columns.joints))]
    assert len(every) > 2
    for columns, n in every:
        joint = columns.joints[n]
        meeting, wall = joint.meeting, joint.wall
        divisor = factors.on_yield(wall.metal.kind, brittle=wall.brittle, gamma="gamma_m5")
        inside = forces_through(context, (joint.effect.seat,))[:, :, 0]
        by = factors.load() * divisor
        for found, plain in (
            (columns.axial, inside[..., 0]),
            (columns.in_plane, np.abs(inside[..., 3:] @ meeting.in_plane)),
            (columns.out_of_plane, np.abs(inside[..., 3:] @ meeting.out_of_plane)),
        ):
            scale = float(np.abs(inside[..., 3:] if plain.min() >= 0.0 else plain).max() * by.max())
            np.testing.assert_allclose(found[n].T, plain * by, rtol=1e-9, atol=1e-12 * scale)
        host = meeting.host.bar
        area, wy, wz = (v[:, host, None, None] for v in (bars.area, bars.modulus_y, bars.modulus_z))
        axial, my, mz = host_forces(context, meeting)[..., [0, 4, 5]].transpose(3, 0, 1, 2)
        is_round = isinstance(meeting.host.shape, Tube | Bar)
        bent = np.hypot(my, mz) / wy if is_round else np.abs(my) / wy + np.abs(mz) / wz
        pressed = np.maximum((bent - axial / area).max(axis=-1), 0.0) / wall.yield_[:, None]
        pressed *= by if method == "allowable" else factors.load()
        np.testing.assert_allclose(columns.compression[n].T, pressed, rtol=1e-9, atol=1e-12)
        alone = wall_columns(context, [joint])
        for own in ("axial", "in_plane", "out_of_plane", "compression", "fy", "angle"):
            one, together = getattr(alone, own)[0], getattr(columns, own)[n]
            np.testing.assert_allclose(one, together, rtol=1e-9, atol=1e-12 * np.abs(together).max())
        for (mask, why), (other, told) in zip(alone.outside, columns.outside, strict=True):
            told_alone, told_beside = np.broadcast_arrays(mask[0], other[n])
            np.testing.assert_array_equal(told_alone, told_beside)
            assert (why if isinstance(why, str) else why[0]) == (told if isinstance(told, str) else told[n])
