"""Who computes the points of a sweep: processes on this machine, or the workers of a Dask cluster."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from sim.errors import Fault, NoAnswerError, refuse
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

PATIENCE_S = 10
"""How long a cluster has to answer, in seconds."""


@dataclass(frozen=True, slots=True)
class Workers:
    """Who computes the points.

    Attributes
    ----------
    processes : int
        Processes on this machine.
    cluster : str or None
        Address of a Dask scheduler whose workers do it instead; whirlgate is installed there as well.
    """

    processes: int = 1
    cluster: str | None = None


def cluster_faults(cluster: str | None) -> Iterator[Fault]:
    """Yield why a cluster cannot be used, before any work is done for it."""
    if cluster is not None and find_spec("distributed") is None:
        yield Fault("cluster", 'needs the extra cluster: pip install "whirlgate[cluster]"')


@contextmanager
def run_by(workers: Workers) -> Iterator[None]:
    """Send joblib's calls inside to the workers.

    Raises
    ------
    InputError
        When the cluster cannot be reached.
    NoAnswerError
        When it has no workers.
    """
    from joblib import parallel_config

    if workers.cluster is None:
        with parallel_config(backend="loky", n_jobs=workers.processes):
            yield
    else:
        with _client(workers.cluster), parallel_config(backend="dask", wait_for_workers_timeout=PATIENCE_S):
            yield


@contextmanager
def _client(address: str) -> Iterator[None]:
    import distributed

    connect: Any = distributed.Client
    try:
        client = connect(address, timeout=PATIENCE_S)
    except (OSError, ValueError, TimeoutError):
        refuse("cluster", f"must be the address of a Dask scheduler that answers, got {quoted(address)}")
    with client:
        if not client.scheduler_info()["workers"]:
            message = f"no worker has joined the cluster; start one there: dask worker {address}"
            raise NoAnswerError(message)
        yield
