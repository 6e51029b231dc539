"""Figures drawn by other processes: the same bytes as by this one, once each, and drawn here when a process dies."""

import os
import signal

import pytest
from airplanes import BIPLANE

from sim.scenario.reading import load
from viz.report.drawings import Drawings
from viz.report.findings import Findings
from viz.report.media import written

FILES = {"out": "report.html", "pdf": "report.pdf", "handout": "handout.html"}


@pytest.fixture(scope="module")
def found():
    return Findings(load(BIPLANE), "us", called=str(BIPLANE))


@pytest.mark.slow
def test_one_process_and_two_draw_the_same_bytes(found):
    asked = (("balance", found.balance), ("windows", found.windows), ("mount", found.mount), ("speeds", found.speeds))
    here = Drawings("us")
    alone = [here.begin(*one)() for one in asked]
    with Drawings("us", 2) as pool:
        begun = [pool.begin(*one) for one in asked]
        others = [one() for one in begun]
        assert others[0] is begun[0]()
    assert others == alone
    assert all(len(one.svg) > 10_000 for one in alone)


def test_figures_of_a_process_that_has_died_are_drawn_here(found):
    with Drawings("us", 2) as pool:
        first = pool.begin("speeds", found.speeds)()
        (child,) = pool._pool._processes
        os.kill(child, signal.SIGKILL)
        again = [pool.begin("speeds", found.speeds) for _ in range(3)]
        assert [one() for one in again] == [first] * 3


@pytest.mark.slow
def test_a_whole_report_is_the_same_by_one_process_and_by_two(reported, monkeypatch):
    """Of the same answers, which this process computes in either case; and so it was written by the command."""
    folder, found = reported

    def pages(processes):
        monkeypatch.setattr(found, "drawings", Drawings("us", processes))
        return dict(written(found, FILES, paper="letter", progress=lambda sections, _count, _label: sections))

    alone = pages(1)
    assert alone == pages(2)
    for name, content in alone.items():
        assert (folder / name).read_bytes() == (content.encode() if isinstance(content, str) else content)
