"""How the process keeps its memory."""

import ctypes
from contextlib import suppress

KEPT = 32 << 20  # bytes; the most that glibc takes for the last of the three, larger arrays go back at once
M_TRIM_THRESHOLD, M_TOP_PAD, M_MMAP_THRESHOLD = -1, -2, -3  # of mallopt(3)


def keep_freed() -> None:
    """Keep what is freed for the next array: to have it anew from the system takes 6 ms of a summary.

    With glibc alone; others have no such settings.
    """
    with suppress(OSError, TypeError, AttributeError):
        mallopt = ctypes.CDLL(None).mallopt
        for setting in (M_TRIM_THRESHOLD, M_TOP_PAD, M_MMAP_THRESHOLD):
            mallopt(setting, KEPT)
