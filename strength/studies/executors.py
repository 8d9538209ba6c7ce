"""Where a large study is worked off: any `concurrent.futures.Executor`, named by its import path."""

from contextlib import contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any

from strength.errors import OutputError

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
    """So many threads; 0: one a processor. With one the work is done where it is asked for."""
    import os
    from concurrent.futures import ThreadPoolExecutor

    wanted = count or os.cpu_count() or 1
    if wanted < 2:
        yield None
        return
    with ThreadPoolExecutor(wanted) as executor:
        yield executor
