"""Where a large study is worked off: any `concurrent.futures.Executor`, named by its import path."""

import gc
import os
import sys
from contextlib import contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any

from strength.errors import OutputError, StrengthError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from concurrent.futures import Executor


@contextmanager
def executor_named(path: str) -> "Iterator[Executor | None]":
    """The executor that `module:name` is or makes, shut down at the end where it was made here.

    name: an executor, or something to call without arguments that gives one, such as
    `concurrent.futures:ProcessPoolExecutor`. "" : none. Raises OutputError for what is neither.
    """
    if not path:
        yield None
        return
    module, _, name = path.partition(":")
    try:
        found: Any = import_module(module)
        for word in (name or "executor").split("."):
            found = getattr(found, word)
    except (ImportError, AttributeError, ValueError) as error:
        raise OutputError(path, f"names no executor: {error}; write module:name") from None
    if hasattr(found, "submit") and not isinstance(found, type):
        yield found
        return
    try:
        made: Any = found() if callable(found) else None
    except TypeError as error:
        raise OutputError(path, f"makes no executor: {error}") from None
    if made is None or not hasattr(made, "submit"):
        raise OutputError(path, "is no executor and makes none: it needs a method `submit`")
    with made as executor:
        yield executor


@contextmanager
def workers(count: int) -> "Iterator[Executor | None]":
    """So many processes; 0: one a processor. With one the work is done where it is asked for.

    Threads would mostly wait for each other: the calls of numpy are many and short. Linux forks, so that
    nothing is loaded again; elsewhere a process starts by itself.
    """
    wanted = count or os.cpu_count() or 1
    if wanted < 2:
        yield None
        return
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    context = get_context("fork" if sys.platform == "linux" else None)
    with ProcessPoolExecutor(wanted, mp_context=context, initializer=_begin) as executor:
        try:
            yield executor
        except BrokenProcessPool:
            why = "a worker was ended from outside, mostly for want of memory: ask for fewer (--workers 1)"
            raise StrengthError(why) from None


def _begin() -> None:
    """A worker: an interrupt is for the process that shares out the work, and what came along stays."""
    import signal

    gc.freeze()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
