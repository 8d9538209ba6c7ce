"""Time large frames, from points and sizes to each member's worst von Mises, against a sparse solve.

    python tests/bench/large.py --json -

A 10 x 10 x 10 block and a 4 x 4 x 70 tower of tubes (some 2 750 members) under 14 loads. The baseline is
`scipy.sparse.linalg.splu(K).solve(F)` at its defaults on the same matrix, which is made beforehand. Pairs in
one run, OPENBLAS_NUM_THREADS=1, 2 warm-ups, median of 9 pair ratios; both sides have the allocator's own
defaults, not the program's settings. `--memory` gives the peak that one run allocates, for towers of growing
height.
"""

import argparse
import json
import os
import statistics
import time
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from strength.case.model import Case, Member, Point, Support
from strength.case.shape import Tube
from strength.checks.peaks import peaks
from strength.frame.layout import lay_out
from strength.frame.plan import plan
from strength.frame.solve import scaled_forces, solve, stiffness
from strength.library import find_metal
from strength.sections import Bars, measure
from strength.vehicle.sheet import Pushes

SIZES = {"10x10x10": (10, 10, 10), "4x4x70": (4, 4, 70)}
LOADS = 14
HEIGHTS = (20, 35, 70, 140)
WARM_UPS = 2
PAIRS = 9


def lattice(counts: tuple[int, int, int], seed: int = 7) -> Case:
    """A lattice of tubes between points that stand a little off their places, held at the bottom."""
    rng = np.random.default_rng(seed)
    places = np.stack(np.meshgrid(*(np.arange(n) for n in counts), indexing="ij"), axis=-1).reshape(-1, 3)
    at = places * [310.0, 290.0, 330.0] + rng.uniform(-20.0, 20.0, places.shape)
    number = np.arange(len(places)).reshape(counts)
    pairs = []
    for axis in range(3):
        first = np.take(number, np.arange(counts[axis] - 1), axis=axis).ravel()
        second = np.take(number, np.arange(1, counts[axis]), axis=axis).ravel()
        pairs += list(zip(first.tolist(), second.tolist(), strict=True))
    tubes = (Tube(30.0, 2.0), Tube(25.0, 2.0), Tube(35.0, 2.5))
    return Case(
        title="lattice",
        points=tuple(Point(name=f"p{n}", at=tuple(map(float, xyz))) for n, xyz in enumerate(at)),
        members=tuple(
            Member(name=f"m{n}", start=f"p{a}", end=f"p{b}", shape=tubes[n % 3], material="E235+N")
            for n, (a, b) in enumerate(pairs)
        ),
        supports=tuple(
            Support(name=f"p{n}", at=f"p{n}", hold=(True,) * 6) for n in number[:, :, 0].ravel().tolist()
        ),
        metals={"E235+N": find_metal("E235+N")},
    )


def pushes(case: Case, seed: int = 11) -> Pushes:
    """Forces and moments on all points."""
    rng = np.random.default_rng(seed)
    forces = rng.normal(0.0, 1.0, (LOADS, len(case.points), 6)) * [300.0, 200.0, 500.0, 8e3, 6e3, 9e3]
    return Pushes(forces=forces, gauge=None, notes=((),) * LOADS)


def whole(case: Case, bars: Bars, loads: Pushes) -> np.ndarray:
    """Worst von Mises of each member in each load (loads, members) [MPa]: layout, plan, solve, stresses."""
    layout = lay_out(case)
    response = solve(case, layout, bars, loads)
    ends = 2 * layout.bar.size
    bar = np.repeat(layout.bar, 2)
    forces = np.ascontiguousarray(response.forces.reshape(1, LOADS, ends, 6).transpose(3, 2, 1, 0))
    strengths = (bars.yield_[:, bar],)
    found = peaks(case, bars, bar, forces, ((),) * ends, np.full(ends, -1), strengths)
    return np.maximum.reduceat(found[..., 0], 2 * layout.first, axis=0).T


def matrix_and_forces(case: Case, loads: Pushes) -> tuple[object, np.ndarray]:
    """The same stiffness matrix and loads for the baseline."""
    from scipy.sparse import coo_array

    bars, layout = measure(case), lay_out(case)
    ready = plan(case, layout)
    coefficient, n = stiffness(layout, ready.links, bars)[0], ready.reduction.unknowns
    (block,) = ready.assembly.blocks
    row, column = np.broadcast_arrays(block.number[:, :, None], block.number[:, None, :])
    there = (row >= 0) & (column >= 0)
    whole_matrix = coo_array((block.products(coefficient)[there], (row[there], column[there])), shape=(n, n))
    return whole_matrix.tocsc(), ready.reduction.gather(scaled_forces(ready.links, loads))[:, 0]


def ratio(counts: tuple[int, int, int]) -> float:
    """Median of the pair ratios of one lattice."""
    from scipy.sparse.linalg import splu

    case = lattice(counts)
    loads = pushes(case)
    bars = measure(case)
    matrix, forces = matrix_and_forces(case, loads)
    pairs = []
    for _ in range(WARM_UPS + PAIRS):
        start = time.perf_counter()
        whole(case, bars, loads)
        middle = time.perf_counter()
        splu(matrix).solve(forces)
        pairs.append((middle - start) / (time.perf_counter() - middle))
    return statistics.median(pairs[WARM_UPS:])


def memory(counts: tuple[int, int, int]) -> float:
    """Peak of what one whole run allocates [MiB]."""
    import tracemalloc

    case = lattice(counts)
    loads = pushes(case)
    bars = measure(case)
    tracemalloc.start()
    whole(case, bars, loads)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak / 2**20


def main() -> None:
    """Print the ratios, or the memory."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--json", default="-", help="file to write, - for standard output")
    parser.add_argument("--memory", action="store_true", help="peak memory instead of time")
    options = parser.parse_args()
    if options.memory:
        told = {"peak_mib": {f"4x4x{high}": round(memory((4, 4, high)), 1) for high in HEIGHTS}}
    else:
        told = {"sparse_ratio": {name: round(ratio(counts), 3) for name, counts in SIZES.items()}}
    text = json.dumps(told)
    if options.json == "-":
        print(text)
    else:
        Path(options.json).write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
