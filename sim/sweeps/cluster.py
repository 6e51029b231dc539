"""The workers of a Dask cluster: what is lost is asked again, and when nobody answers any more the work ends."""

from __future__ import annotations

import logging
import time
from collections import Counter, deque
from concurrent.futures import CancelledError
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

from sim.errors import NoAnswerError, refuse
from sim.sweeps.lost import lost
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator

Item = TypeVar("Item")
Found = TypeVar("Found")

PATIENCE_S = 10.0
"""How long scheduler and workers have to answer."""
GLANCE_S = 0.01
"""Between two looks at what has come."""
AHEAD = 4
"""Items that wait at the cluster for each of its threads: enough that none is idle."""
TRIES = 3
"""How often an item is asked for."""


def found_by_cluster(work: Callable[[Item], Found], items: Iterable[Item], address: str) -> Iterator[Found]:
    """Yield what the workers find for each item, as it comes.

    Parameters
    ----------
    work : callable
        Of one item; it, the items and what it returns can be pickled.
    items : iterable
        What to work on, each hashable.
    address : str
        Of the scheduler: ``tcp://HOST:8786``, or ``tls://`` with the certificates that Dask's own settings name.

    Raises
    ------
    InputError
        When no scheduler answers there.
    NoAnswerError
        When it has no workers.
    MachineError
        When the scheduler or every worker is lost on the way, or an item again and again.
    """
    left, running, asked = deque(items), dict[Any, Item](), Counter[Item]()
    with _client(address) as client:
        while left or running:
            room = AHEAD * _threads(client)
            while left and len(running) < room:
                item = left.popleft()
                running[client.submit(work, item, pure=False)] = item
            for future in _ended(client, running):
                item = running.pop(future)
                try:
                    yield _result(future)
                except (CancelledError, OSError):
                    asked[item] += 1
                    left.append(item)
                if asked[item] == TRIES:
                    _lost(f"one point was lost {TRIES} times")


def _result(future: Any) -> Any:  # noqa: ANN401
    import distributed

    try:
        return future.result(timeout=PATIENCE_S)
    except distributed.KilledWorker:
        _lost("one point ended every worker that began it")
    except ImportError:
        _lost("its workers have another version of whirlgate or none")


def _ended(client: Any, running: Collection[Any]) -> list[Any]:  # noqa: ANN401
    """Wait until the cluster has ended something, or lost it, and return it."""
    asked_s = time.monotonic()
    while not (ended := [future for future in running if future.done()]):
        time.sleep(GLANCE_S)
        if time.monotonic() - asked_s > PATIENCE_S:
            _threads(client)
            asked_s = time.monotonic()
    return ended


def _threads(client: Any) -> int:  # noqa: ANN401
    """Return how many items the workers take at a time; wait for a scheduler and for workers that are away."""
    deadline_s, why, threads = time.monotonic() + 2.0 * PATIENCE_S, "its scheduler no longer answers", 0
    while time.monotonic() < deadline_s and client.status in ("running", "connecting"):
        try:
            threads = sum(client.nthreads(callback_timeout=PATIENCE_S).values())
            why = "no worker is left"
        except (OSError, RuntimeError, CancelledError):  # away, or on its way back
            why = "its scheduler no longer answers"
        if threads:
            break
        time.sleep(GLANCE_S)
    return threads or _lost(why)


def _lost(why: str) -> NoReturn:
    lost(f"the cluster was lost: {why}", "mend it")


@contextmanager
def _client(address: str) -> Iterator[Any]:
    import distributed

    connect: Any = distributed.Client
    log = logging.getLogger("distributed.client")
    before = log.level
    log.setLevel(logging.CRITICAL)  # what it says of a lost scheduler is said here in a sentence
    try:
        client = connect(address, timeout=PATIENCE_S)
    except (OSError, ValueError, TimeoutError):
        log.setLevel(before)
        refuse("cluster", f"must be the address of a Dask scheduler that answers, got {quoted(address)}")
    try:
        if not client.scheduler_info()["workers"]:
            message = f"no worker has joined the cluster; start one there: dask worker {address}"
            raise NoAnswerError(message)
        yield client
    finally:
        client.close(timeout=PATIENCE_S)
        log.setLevel(before)
