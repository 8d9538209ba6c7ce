"""Warnings about loads that judge nothing."""

from collections.abc import Iterator

import numpy as np

from strength.case.model import Warned
from strength.checks.context import Context

NOTHING = 1e-9  # N and N*mm


def idle_load(context: Context) -> Iterator[Warned]:
    """Loads that put no force into any part: their rows all pass, and prove nothing."""
    forces = context.response.forces  # designs, loads, elements, ends, six
    most = np.abs(forces).max(axis=(0, 2, 3, 4), initial=0.0)
    for name, force in zip(context.load_names, most, strict=True):
        if force <= NOTHING:
            text = (
                "this load puts nothing on any part, so it proves nothing: give it a force, or leave it out"
            )
            yield Warned(part=name, text=text)
