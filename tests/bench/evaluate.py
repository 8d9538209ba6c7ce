"""Time studies of many designs against the bare linear algebra they cannot do without.

    python tests/bench/evaluate.py --json -

    lapack_ratio       256 designs of the demo, all walls varied by 10 % either way, from size arrays to the
                       worst row per part, kind and load (frame buckling left out), against
                       `numpy.linalg.solve` of the same matrices and loads, which are made beforehand
    lapack_ratio_two   the same with two workers, processes as of `spread`, half of the designs each
    sweep_ratio        150 sizes of one member, against the solves of 150 such matrices
    spread_ratio       `strength spread` with so many draws (--draws), a whole process with two workers,
                       against the bare time of so many solves; spread_mib: peak memory of all its
                       processes [MiB]
    screen_to_summary  `strength screen` of a tube in all stock sizes against `strength summary`, whole
                       processes
    sparse_ratio       see large.py
    designs_per_second of the first, one worker

Pairs in one run, OPENBLAS_NUM_THREADS=1 on both sides, 2 warm-ups, median of 9 pair ratios; one pair for
`spread`, which takes minutes.
"""

import argparse
import json
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # modules are compiled once, in the warm-ups

import numpy as np

from strength.case import read_case
from strength.case.shape import Box, Tube
from strength.frame.solve import scaled_forces, stiffness
from strength.library.data import cases_folder
from strength.memory import keep_freed
from strength.sections import Sizes, rebuilt, sizes_of
from strength.studies.evaluate import evaluate_sizes, shapes_of
from strength.studies.executors import workers
from strength.studies.prepared import Prepared, prepare
from strength.studies.task import Ask

DESIGNS, SWEPT = 256, 150
MEMBER = "brace.left"
WARM_UPS, PAIRS = 2, 9
SEED = 5
ASK = Ask(buckling=False, exact_flats=False)


def walls(ready: Prepared) -> Sizes:
    """All walls of tubes and boxes varied by 10 % either way, part by part."""
    shapes = shapes_of(ready.case)
    sizes = sizes_of([shapes] * DESIGNS)
    hollow = np.array([isinstance(shape, Tube | Box) for shape in shapes])
    factor = np.random.default_rng(SEED).uniform(0.9, 1.1, sizes.wall.shape)
    return Sizes(depth=sizes.depth, width=sizes.width, wall=np.where(hollow, sizes.wall * factor, sizes.wall))


def swept(ready: Prepared) -> Sizes:
    """One tube in many diameters and walls, the others as they are."""
    sizes = sizes_of([shapes_of(ready.case)] * SWEPT)
    own = ready.bars.names.index(MEMBER)
    depth, wall = sizes.depth.copy(), sizes.wall.copy()
    depth[:, own] = np.linspace(18.0, 30.0, SWEPT)
    wall[:, own] = np.resize([1.0, 1.5, 2.0, 2.5, 3.0], SWEPT)
    return Sizes(depth=depth, width=np.where(depth == sizes.depth, sizes.width, depth), wall=wall)


def equations(ready: Prepared, sizes: Sizes) -> tuple[np.ndarray, np.ndarray]:
    """Stiffness matrices (designs, unknowns, unknowns) and loads (1, unknowns, loads)."""
    bars = rebuilt(ready.bars, ready.case.basis, sizes)
    matrices = ready.plan.assembly.matrix(stiffness(ready.layout, ready.plan.links, bars))
    loads = ready.plan.reduction.gather(scaled_forces(ready.plan.links, ready.pushes))
    return matrices, np.ascontiguousarray(loads.transpose(1, 0, 2))


def paired(work: Callable[[], object], bare: Callable[[], object]) -> tuple[float, float]:
    """Median ratio of both times, and median time of the work [s]."""
    pairs = []
    for _ in range(WARM_UPS + PAIRS):
        start = time.perf_counter()
        work()
        middle = time.perf_counter()
        bare()
        pairs.append((middle - start, time.perf_counter() - middle))
    kept = pairs[WARM_UPS:]
    return statistics.median(a / b for a, b in kept), statistics.median(a for a, _ in kept)


def run(*arguments: str) -> None:
    """A whole process of the program."""
    command = (sys.executable, "-m", "strength", *arguments)
    done = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
    if done.returncode not in (0, 1, 3):
        raise SystemExit(f"{' '.join(command)} failed with exit code {done.returncode}")


def spread(path: str, draws: int) -> tuple[float, float]:
    """Time [s] of so many draws, a whole process with two workers, and peak memory of all processes [MiB]."""
    from tests.bench import peak

    wanted = (path, "--draws", str(draws), "--workers", "2", "--json", os.devnull)
    start = time.perf_counter()
    mebibytes = peak.run((sys.executable, "-m", "strength", "spread", *wanted))
    return time.perf_counter() - start, mebibytes


def ratios(path: str, draws: int) -> dict[str, float]:
    """All ratios but the sparse ones."""
    spreading, mebibytes = spread(path, draws) if draws else (0.0, 0.0)
    ready = prepare(read_case(path))
    varied, sweep = walls(ready), swept(ready)
    found: dict[str, float] = {}
    matrices, loads = equations(ready, varied)
    ratio, seconds = paired(
        lambda: evaluate_sizes(ready, varied, ask=ASK), lambda: np.linalg.solve(matrices, loads)
    )
    found["lapack_ratio"], found["designs_per_second"] = ratio, DESIGNS / seconds
    with workers(2) as executor:
        found["lapack_ratio_two"], _ = paired(
            lambda: evaluate_sizes(ready, varied, ask=ASK, executor=executor, most=DESIGNS // 2),
            lambda: np.linalg.solve(matrices, loads),
        )
    start = time.perf_counter()
    np.linalg.solve(matrices, loads)
    bare = (time.perf_counter() - start) / DESIGNS * draws
    matrices, loads = equations(ready, sweep)
    found["sweep_ratio"], _ = paired(
        lambda: evaluate_sizes(ready, sweep, ask=ASK), lambda: np.linalg.solve(matrices, loads)
    )
    found["screen_to_summary"], _ = paired(lambda: run("screen", path, MEMBER), lambda: run("summary", path))
    if draws:
        found["spread_ratio"], found["spread_mib"] = spreading / bare, mebibytes
    return found


def main() -> None:
    """Print the ratios."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--json", default="-", help="file to write, - for standard output")
    parser.add_argument("--case", default=None, help="case file (default: the Bracken demo, revised)")
    parser.add_argument("--draws", type=int, default=10_000, help="draws of `spread`; 0: leave it out")
    parser.add_argument("--no-sparse", action="store_true", help="leave the large frames out")
    options = parser.parse_args()
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    keep_freed()  # as the program does, on both sides
    path = options.case or str(cases_folder() / "bracken-revised" / "case.toml")
    told: dict[str, object] = {key: round(value, 3) for key, value in ratios(path, options.draws).items()}
    if not options.no_sparse:  # in a process of its own, at the allocator's defaults
        command = (sys.executable, str(Path(__file__).with_name("large.py")), "--json", "-")
        done = subprocess.run(command, stdout=subprocess.PIPE, check=True)
        told |= json.loads(done.stdout)
    text = json.dumps(told)
    if options.json == "-":
        print(text)
    else:
        Path(options.json).write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
