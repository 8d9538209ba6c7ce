"""A rod end or ball stud screwed into a part: its shank, its seat and its thread. Arguments broadcast."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Value = float | Array

STRIP = 0.6  # of the ultimate: shear strength of a thread (common in American practice)
LEAST_HELD = 0.01  # pitches: own choice for a thread engaged by less than its first pitch
RATING_FACTOR = 5.0  # loads of alternating direction: makers ask 5 to 8


def shank_stress(
    across: Value, along: Value, moment: Value, reach: Value, root: Value, stress_area: Value
) -> Array:
    """32 M/(pi d3^3) + |F_a|/As with M = |F_p| reach + end moment across the stud [MPa]."""
    bent = across * reach + moment
    return np.asarray(32.0 * bent / (np.pi * root**3) + np.abs(along) / stress_area)


def rocking(across: Value, moment: Value, reach: Value, engaged: Value, diameter: Value) -> Array:
    """(|F_p| (6 reach + 4 engaged) + 6 |M_p|)/(d engaged^2) [MPa].

    A stiff pin in an elastic bore, the pressure linear along it (Roloff/Matek, plug pin in bending,
    from memory).
    """
    return np.asarray(
        (across * (6.0 * reach + 4.0 * engaged) + 6.0 * moment) / (diameter * engaged * engaged)
    )


def strip_resistance(
    engaged: float, pitch: float, tapped_area: float, stud_area: float, fu: Value, fub: float
) -> Array:
    """0.6 (engaged - pitch) min(A_Sn fu, A_Ss fub) [N]; the first pitch is taken to carry nothing.

    Areas per engaged length at the tolerance limits (FED-STD-H28/2, from memory).
    """
    held = max(engaged - pitch, LEAST_HELD * pitch)
    return np.asarray(STRIP * held * np.minimum(tapped_area * fu, stud_area * fub))
