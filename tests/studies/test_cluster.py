"""Large studies on a cluster: dask.distributed's executor on a local cluster of two processes."""

from collections.abc import Iterator
from concurrent.futures import Executor

import pytest
from distributed import Client, LocalCluster

from strength.case import case_from_text
from strength.studies.screen import Wanted, screen
from strength.studies.screened import Run
from strength.studies.spread import spread
from strength.studies.typed import case_typed
from tests.studies.cases import CRANE


@pytest.fixture(scope="module")
def executor() -> Iterator[Executor]:
    """The executor of a cluster whose pages take any free port: several may run at once."""
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address="127.0.0.1:0") as cluster,
        Client(cluster) as client,
    ):
        yield client.get_executor()


def test_spread_on_a_cluster(executor: Executor) -> None:
    """Bit for bit as here."""
    case = case_from_text(CRANE)
    assert spread(case, draws=150, executor=executor) == spread(case, draws=150)


def test_screen_on_a_cluster(executor: Executor) -> None:
    """Sizes, and what cannot be built, as here."""
    file = case_typed(CRANE)
    told: list[int] = []
    there = screen(file, ["stay"], Wanted(), run=Run(executor=executor, step=told.append))
    assert there == screen(file, ["stay"], Wanted())
    assert sum(told) == len(there.candidates) + len(there.refused) + 1
