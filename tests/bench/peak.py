"""Peak memory of a process and all its children, what they share counted once."""

import resource
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

EVERY = 0.02  # s between looks


def run(command: tuple[str, ...]) -> float:
    """Peak memory [MiB] of a command; where there is no /proc, that of the largest process alone."""
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    most = 0.0
    while process.poll() is None:
        most = max(most, sum(_held(each) for each in _family(process.pid)))
        time.sleep(EVERY)
    if process.returncode not in (0, 1, 3):
        raise SystemExit(f"{' '.join(command)} failed with exit code {process.returncode}")
    return most or resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024.0


def _family(number: int) -> Iterator[int]:
    yield number
    for children in Path(f"/proc/{number}/task").glob("*/children"):
        for child in _read(children).split():
            yield from _family(int(child))


def _held(number: int) -> float:
    """The process's proportional share of memory [MiB] (`Pss`, proc(5))."""
    for line in _read(Path(f"/proc/{number}/smaps_rollup")).splitlines():
        if line.startswith("Pss:"):
            return float(line.split()[1]) / 1024.0
    return 0.0


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="ascii")
    except OSError:  # it has just ended
        return ""
