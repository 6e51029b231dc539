"""Displays as a user would ask for them, sized once."""

import pytest
from airplanes import BIPLANE

SETTINGS = {
    "slide": (),
    "slide, one lobe": ("exhibit.lobes=1",),
    "arm": ("exhibit.lobes=1", 'exhibit.follower="swinging"', 'exhibit.arm="60 mm"', 'exhibit.pivot="75 mm"'),
    "offset": ('exhibit.offset="3 mm"',),
}


@pytest.fixture(scope="session", params=SETTINGS)
def exhibit(request):
    """Return a sized display that passes every check."""
    from sim.model.model import model
    from sim.studies.exhibit import exhibit as size

    made = size(model(BIPLANE, SETTINGS[request.param]))
    assert not made.failures
    return made


@pytest.fixture(scope="session")
def made(exhibit):
    """Return the display with its parts and their drawings."""
    from viz.drawings.drawing import drawn_exhibit

    return drawn_exhibit(exhibit)


@pytest.fixture(scope="session")
def drawings(made):
    """Return the drawing of each part by its name."""
    return {drawing.name: drawing for drawing in made.drawings}
