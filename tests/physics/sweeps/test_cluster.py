"""A cluster that loses what it was given is asked again; one that is lost itself ends the sweep in a sentence."""

from collections import Counter
from concurrent.futures import CancelledError
from contextlib import contextmanager

import pytest
from airplanes import BIPLANE

from sim.errors import MachineError
from sim.sweeps import cluster
from sim.sweeps.cluster import found_by_cluster
from sim.sweeps.grid import question_of, swept
from sim.sweeps.workers import Workers

STALL = "speeds.powerplants.rotary.stall_m_s"
KEPT = "; mend it and ask again: with an output file the points found are kept"


class Future:
    def __init__(self, found):
        self.found = found

    def done(self):
        return True

    def result(self, timeout):
        if isinstance(self.found, BaseException):
            raise self.found
        return self.found


class Client:
    """A cluster of one thread that loses each item so many times."""

    def __init__(self, lost=0, status="running", threads=1):
        self.lost, self.status, self.threads, self.asked = lost, status, threads, Counter()

    def nthreads(self, callback_timeout):
        if self.status != "running":
            raise OSError
        return {"worker": self.threads}

    def submit(self, work, item, pure):
        self.asked[item] += 1
        return Future(CancelledError() if self.asked[item] <= self.lost else work(item))


@pytest.fixture
def use(monkeypatch):
    """Put a client in the place of the one that an address gives."""

    def put(client):
        @contextmanager
        def given(address):
            yield client

        monkeypatch.setattr(cluster, "_client", given)
        monkeypatch.setattr(cluster, "PATIENCE_S", 0.02)
        return client

    return put


def lost(*_, **__):
    with pytest.raises(MachineError) as caught:
        list(found_by_cluster(abs, range(-3, 0), "tcp://127.0.0.1:1"))
    return str(caught.value)


def test_what_is_lost_on_the_way_is_asked_again(use):
    client = use(Client(lost=2))
    assert sorted(found_by_cluster(abs, range(-9, 0), "tcp://127.0.0.1:1")) == list(range(1, 10))
    assert set(client.asked.values()) == {3}


@pytest.mark.parametrize(
    ("client", "why"),
    [
        (Client(lost=3), "one point was lost 3 times"),
        (Client(status="closed"), "its scheduler no longer answers"),
        (Client(status="connecting"), "its scheduler no longer answers"),
        (Client(threads=0), "no worker is left"),
    ],
    ids=["points", "closed", "away", "workers"],
)
def test_what_is_lost_for_good_is_told(use, client, why):
    use(client)
    assert lost() == f"the cluster was lost: {why}{KEPT}"


class Closing:
    """Keeps outcomes, and ends the cluster when the first comes."""

    def __init__(self, ended):
        self.ended, self.kept = ended, {}

    def known(self, key):
        return self.kept.get(key)

    def keep(self, key, outcome):
        self.kept[key] = outcome
        self.ended.close()


@pytest.mark.slow
def test_a_scheduler_that_goes_leaves_the_points_found(monkeypatch):
    distributed = pytest.importorskip("distributed")
    monkeypatch.setattr(cluster, "PATIENCE_S", 2.0)
    question = question_of(BIPLANE, (), ("wing.span=26ft:30ft:40",), [STALL])
    local = {"n_workers": 1, "threads_per_worker": 1, "host": "127.0.0.1", "dashboard_address": None}
    with distributed.LocalCluster(**local, silence_logs=50) as running:
        journal, workers = Closing(running), Workers(cluster=running.scheduler_address)
        with pytest.raises(MachineError, match="the cluster was lost: its scheduler no longer answers; mend it"):
            swept(question, workers=workers, journal=journal)
    assert 1 <= len(journal.kept) < 40
    found = dict(journal.kept)
    whole = swept(question, workers=Workers(), journal=journal)
    assert whole == swept(question, workers=Workers())
    assert found.items() <= journal.kept.items()
