"""Who computes the points of a sweep: processes on this machine, or the workers of a Dask cluster."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING, TypeVar

from sim.errors import Fault
from sim.sweeps.lost import lost

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

Item = TypeVar("Item")
Found = TypeVar("Found")


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


def found_by(workers: Workers, work: Callable[[Item], Found], items: Sequence[Item]) -> Iterator[Found]:
    """Yield what the workers find for each item, as it comes.

    Raises
    ------
    InputError
        When the cluster cannot be reached.
    NoAnswerError
        When it has no workers.
    MachineError
        When a process or the cluster is lost on the way.
    """
    if workers.cluster is not None:
        from sim.sweeps.cluster import found_by_cluster

        yield from found_by_cluster(work, items, workers.cluster)
    else:
        yield from _found_here(work, items, workers.processes)


def _found_here(work: Callable[[Item], Found], items: Sequence[Item], processes: int) -> Iterator[Found]:
    from concurrent.futures.process import BrokenProcessPool

    from joblib import Parallel, delayed

    calls = (delayed(work)(item) for item in items)
    try:
        yield from Parallel(n_jobs=processes, backend="loky", return_as="generator_unordered")(calls)
    except BrokenProcessPool:
        lost("a process of the sweep was ended from outside, perhaps for want of memory", "ask for fewer workers")
