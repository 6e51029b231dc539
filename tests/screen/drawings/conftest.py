"""Displays as a user would ask for them, sized once."""

from pathlib import Path

import pytest
from airplanes import BIPLANE

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


@pytest.fixture(scope="session", params=SETTINGS)
def exhibit(request):
    """Return a sized display that passes every check."""
    from sim.model.model import model
    from sim.studies.exhibit import exhibit as size

    made = size(model(BIPLANE, SETTINGS[request.param]))
    assert not made.failures
    return made


@pytest.fixture(scope="session")
def drawings(exhibit):
    """Return the drawing of each flat part by the name of its file."""
    from viz.drawings.flat_parts import cut_parts

    return {one.file: one.drawing for one in cut_parts(exhibit)}
