"""A progress bar on the console's error stream, for what takes over a second; never in a pipe."""

import sys
import time
from types import TracebackType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from rich.progress import Progress

SHOWN_AFTER = 1.0  # s


class Steps:
    """Counts designs done; call it with how many more are. Shows itself only where someone looks on."""

    def __init__(self, what: str) -> None:
        self._what = what
        self._began = time.monotonic()
        self._done = 0
        self._bar: Progress | None = None
        self._task: Any = None
        self._looked_at = sys.stderr.isatty()

    def __enter__(self) -> "Steps":
        return self

    def __exit__(
        self, _kind: type[BaseException] | None, _error: BaseException | None, _trace: TracebackType | None
    ) -> None:
        if self._bar is not None:
            self._bar.stop()

    def __call__(self, count: int) -> None:
        """So many more designs are done."""
        self._done += count
        if not self._looked_at or time.monotonic() - self._began < SHOWN_AFTER:
            return
        if self._bar is None:
            self._start()
        if self._bar is not None:
            self._bar.update(self._task, completed=self._done)

    def _start(self) -> None:
        from rich.console import Console
        from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

        self._bar = Progress(
            TextColumn("{task.description}"),
            BarColumn(),
            TextColumn("{task.completed} designs"),
            TimeElapsedColumn(),
            console=Console(file=sys.stderr),
            transient=True,
        )
        self._task = self._bar.add_task(self._what, total=None)
        self._bar.start()
