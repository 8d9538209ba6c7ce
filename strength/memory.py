"""How a process of the program keeps its memory."""

import ctypes
import gc
from contextlib import suppress

LOOPS = 200_000  # new objects between searches for loops among them: the tens of thousands of a case last
KEPT = 32 << 20  # bytes; the most that glibc takes for the last of the three, larger arrays go back at once
M_TRIM_THRESHOLD, M_TOP_PAD, M_MMAP_THRESHOLD = -1, -2, -3  # of mallopt(3)


def keep_memory() -> None:
    """Search seldom for loops, and keep what is freed for the next array.

    To have it anew from the system takes 6 ms of a summary. The latter with glibc alone; others have no
    such settings.
    """
    gc.set_threshold(LOOPS)
    with suppress(OSError, TypeError, AttributeError):
        mallopt = ctypes.CDLL(None).mallopt
        for setting in (M_TRIM_THRESHOLD, M_TOP_PAD, M_MMAP_THRESHOLD):
            mallopt(setting, KEPT)
