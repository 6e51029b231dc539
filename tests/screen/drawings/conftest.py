"""Displays as a user would ask for them, each sized, drawn and read back once a process."""

from functools import cache, cached_property
from pathlib import Path

import pytest
from airplanes import BIPLANE
from paper import Paper, read

SETTINGS = {
    "slide": (),
    "slide, one lobe": ("exhibit.lobes=1",),
    "arm": ("exhibit.lobes=1", 'exhibit.follower="swinging"', 'exhibit.arm="60 mm"', 'exhibit.pivot="75 mm"'),
    "offset": ('exhibit.offset="3 mm"',),
}

STAND_ALONE = Path(__file__).parents[3] / "scenarios" / "displays" / "tollgate.toml"
OTHERS = {
    "inch": ('exhibit.hardware="inch"', 'exhibit.shaft_diameter="3/8 in"', 'exhibit.roller_diameter="5/8 in"'),
    "motor": ('exhibit.drive="motor"',),
    "lamp switch": ('exhibit.output="lamp switch"',),
    "four blades": ("timing.blades=4", 'timing.dwell="40 °"', "exhibit.lobes=4"),
}
"""Displays whose books are read back by slow tests alone."""


@pytest.fixture(scope="session", params=OTHERS)
def other(request):
    """Return a sized display of another kind, of a file that stands alone."""
    from sim.model.display_model import display_model
    from sim.studies.exhibit import exhibit as size

    made = size(display_model(str(STAND_ALONE), OTHERS[request.param]), ideal=False)
    assert not made.failures
    return made


class Made:
    """A display that passes every check, its builder's book, and that as a reader of PDF finds it."""

    def __init__(self, name: str) -> None:
        from sim.model.model import model
        from sim.studies.exhibit import exhibit as size

        self.exhibit = size(model(BIPLANE, SETTINGS[name]))
        assert not self.exhibit.failures

    @cached_property
    def book(self) -> bytes:
        from viz.drawings.book import book

        return book(self.exhibit)

    @cached_property
    def pages(self) -> list[Paper]:
        return read(self.book)


made_once = cache(Made)
"""Session fixtures with parameters do not last: each file of tests goes through all of them."""


@pytest.fixture(scope="session", params=SETTINGS)
def made(request):
    return made_once(request.param)


@pytest.fixture(scope="session")
def exhibit(made):
    return made.exhibit


@pytest.fixture(scope="session")
def pages(made):
    """Return the pages of the builder's book."""
    return made.pages


@pytest.fixture(scope="session")
def drawings(exhibit):
    """Return the drawing of each flat part by the name of its file."""
    from viz.drawings.flat_parts import cut_parts

    return {one.file: one.drawing for one in cut_parts(exhibit)}
