"""The bundled scenario on the stage; building it takes a tenth of a second, so it is built once."""

import os

import pytest

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")


@pytest.fixture(scope="session")
def stage():
    from sim.studies.scenario import load
    from sim.studies.stage import stage

    return stage(load("tollgate"))


@pytest.fixture
def session(stage):
    """Return a session in which the caution page has been read."""
    from viz.stage.session import Session

    session = Session(stage)
    session.overlay = ""
    return session
