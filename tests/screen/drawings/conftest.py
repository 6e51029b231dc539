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
    from sim.model.display import display_of_scenario
    from sim.scenario.reading import load
    from sim.studies.exhibit import exhibit as size

    made = size(display_of_scenario(load(BIPLANE, SETTINGS[request.param])))
    assert not made.failures
    return made


@pytest.fixture(scope="session")
def drawings(exhibit):
    """Return the drawing of each part by its name."""
    from viz.drawings.drawing import drawn

    return {part.name: drawn(part) for part in exhibit.parts}
