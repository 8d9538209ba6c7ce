"""How the process keeps its memory."""

import ctypes
from contextlib import suppress

KEPT = 128 << 20  # bytes that are not given back, and of which so much more is taken at a time
LARGEST = 32 << 20  # bytes; the most that glibc takes for it, larger arrays go back at once
M_TRIM_THRESHOLD, M_TOP_PAD, M_MMAP_THRESHOLD = -1, -2, -3  # of mallopt(3)
PAGE = 2 << 20  # bytes of a large page
MADV_HUGEPAGE = 14  # of madvise(2)


def keep_freed() -> None:
    """Keep what is freed for the next array: to have it anew from the system takes 6 ms of a summary.

    In large pages, of which the first touch costs a fifth: another 20 ms of a hundred designs. With glibc
    alone; others have no such settings.
    """
    with suppress(OSError, TypeError, AttributeError):
        libc = ctypes.CDLL(None)
        for setting, value in ((M_TRIM_THRESHOLD, KEPT), (M_TOP_PAD, KEPT), (M_MMAP_THRESHOLD, LARGEST)):
            libc.mallopt(setting, value)
        libc.sbrk.restype = ctypes.c_void_p
        begin = -(-libc.sbrk(0) // PAGE) * PAGE
        ctypes.create_string_buffer(PAGE)  # freed at once: for it the heap grew by all that is kept
        size = (libc.sbrk(0) - begin) // PAGE * PAGE
        libc.madvise(ctypes.c_void_p(begin), ctypes.c_size_t(max(size, 0)), MADV_HUGEPAGE)
