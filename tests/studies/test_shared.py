"""What pieces of work share is unpacked once in a process."""

import pickle
from typing import Any

import numpy as np

from strength.case import case_from_text
from strength.sections import sizes_of
from strength.studies.evaluate import evaluate_sizes, shapes_of
from strength.studies.executors import workers
from strength.studies.prepared import prepare
from strength.studies.shared import Shared
from strength.studies.task import Ask, Task
from tests.studies.cases import CRANE


def arrived(sent: bytes) -> Any:
    """What has been packed here."""
    return pickle.loads(sent)  # noqa: S301 - no foreign bytes


def test_unpacked_once() -> None:
    """Where it is known it is not unpacked at all; elsewhere once, and kept until another comes."""
    shared = Shared({"loads": [3, 1, 2]})
    sent = pickle.dumps(shared)
    assert arrived(sent) is shared
    Shared("another that takes its place")
    there = arrived(sent)
    assert there is not shared
    assert there.value == shared.value
    assert arrived(sent) is there


def test_tasks_send_their_case_once() -> None:
    """All tasks of a case refer to the same one where they arrive."""
    ready = prepare(case_from_text(CRANE))
    sizes = sizes_of([shapes_of(ready.case)] * 2)
    one, two = (
        pickle.dumps(Task(ready=ready, sizes=sizes, welds=None, pushes=(), ask=Ask(every=each)))
        for each in (False, True)
    )
    Shared("another that takes its place")
    first, second = arrived(one), arrived(two)
    assert first.ready is second.ready
    assert first.ready is not ready
    assert (first.ask.every, second.ask.every) == (False, True)
    assert np.array_equal(first.sizes.wall, sizes.wall, equal_nan=True)
    assert first.ready.case == ready.case


def test_processes_evaluate_the_same() -> None:
    """Designs shared out among processes, in other chunks: as here."""
    ready = prepare(case_from_text(CRANE))
    sizes = sizes_of([shapes_of(ready.case)] * 150)
    sizes.wall[:] *= np.linspace(0.95, 1.05, 150)[:, None]
    here = evaluate_sizes(ready, sizes)
    with workers(2) as executor:
        there = evaluate_sizes(ready, sizes, executor=executor)
    assert there.names == here.names
    assert np.allclose(there.utilisation, here.utilisation, rtol=1e-12, atol=0.0, equal_nan=True)
