"""Time a whole `strength summary` on the demo against importing numpy and the console's tables.

    python tests/bench/start_up.py --json -

Pairs in one run, OPENBLAS_NUM_THREADS=1 on both sides, 2 warm-ups, median of 9 pair ratios. Modules are
compiled in the warm-ups, as those of an installed program are.
"""

import argparse
import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

BASELINE = (sys.executable, "-c", "import numpy, rich.console, rich.table")
WARM_UPS = 2
PAIRS = 9


def seconds(command: tuple[str, ...]) -> float:
    """Wall time of a whole process [s]."""
    environment = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # compiled once, in the warm-ups, as on any machine
    start = time.perf_counter()
    done = subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=False)
    passed = time.perf_counter() - start
    if done.returncode not in (0, 1, 3):
        raise SystemExit(f"{' '.join(command)} failed with exit code {done.returncode}")
    return passed


def ratio(command: tuple[str, ...], baseline: tuple[str, ...]) -> float:
    """Median of the pair ratios."""
    pairs = [(seconds(command), seconds(baseline)) for _ in range(WARM_UPS + PAIRS)]
    return statistics.median(a / b for a, b in pairs[WARM_UPS:])


def main() -> None:
    """Print `{"import_ratio": ...}`."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", default="-", help="file to write, - for standard output")
    parser.add_argument("--case", default=None, help="case file (default: the Bracken demo)")
    options = parser.parse_args()
    if options.case is None:
        from strength.library.data import cases_folder

        options.case = str(cases_folder() / "bracken" / "case.toml")
    command = (sys.executable, "-m", "strength", "summary", options.case)
    text = json.dumps({"import_ratio": round(ratio(command, BASELINE), 3)})
    if options.json == "-":
        print(text)
    else:
        Path(options.json).write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
