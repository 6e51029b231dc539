"""The page of the frozen biplane, made once, and a browser that has it open."""

import os

import pytest
from airplanes import BIPLANE
from browsers import CHROMIUM
from chromium_pipe import Tab

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")


@pytest.fixture(scope="session")
def shown():
    """Return what a page shows of the biplane."""
    from shared import built

    from sim.live.scene_data import stage

    return stage(built(BIPLANE))


@pytest.fixture(scope="session")
def written(shown, tmp_path_factory):
    """Return the page as a file."""
    from viz.page.page import page

    path = tmp_path_factory.mktemp("page") / "page.html"
    path.write_text(page(shown), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    """Return a tab of a browser of its own, closed behind the last test of a file: a page left open goes on drawing."""
    if CHROMIUM is None:
        pytest.skip("needs Chromium")
    tab = Tab(tmp_path_factory.mktemp("profile"))
    yield tab
    tab.close()


@pytest.fixture
def tab(browser, written):
    """Return the tab with the page open on a phone held upright; nothing may be heard of it or asked for."""
    browser.open(written.as_uri())
    yield browser
    assert browser.console == []
    assert {address for address in browser.requests if not address.startswith("data:")} <= {written.as_uri()}
