"""A display to test with, and cams that cover both followers."""

import math
from dataclasses import replace

import pytest

from sim.display.cam_profile import Follower
from sim.display.display import CamRequirements, Display, DisplayWindow, Enclosure, Lamp
from sim.display.drive import DisplayPropeller, Handle
from sim.display.schedule import Schedule
from sim.display.spring import SpringRequirements

FOLLOWERS = {
    "in line": Follower("translating", 0.0065),
    "offset right": Follower("translating", 0.0065, offset_m=0.005),
    "offset left": Follower("translating", 0.0065, offset_m=-0.004),
    "arm": Follower("swinging", 0.0065, arm_m=0.06, pivot_m=0.075),
}


@pytest.fixture(params=FOLLOWERS)
def follower(request):
    return FOLLOWERS[request.param]


@pytest.fixture
def schedule():
    return Schedule("cycloidal", lobes=2, rise_rad=0.6, window_rad=1.9, start_rad=0.3)


@pytest.fixture(scope="session")
def display():
    """Return a display that passes every check, changed by its parts: ``display(cam={"lobes": 1})``."""
    made = Display(
        window=DisplayWindow(*map(math.radians, (20.0, 160.0, 60.0)), 2, 2, math.radians(40.0)),
        cam=CamRequirements(2, 0.006, 0.005, "brass", 0.005, 0.003, 0.120, 0.0001),
        follower=Follower("translating", 0.0065),
        follower_kg=0.05,
        spring=SpringRequirements(4.0, 500.0, 0.006, 0.012, 0.04),
        propeller=DisplayPropeller(0.6, 0.4, 2.0 * math.pi),
        handle=Handle("crank", 0.08, 1.0, 0.9, 0.02, 22.2),
        enclosure=Enclosure("public", "round", 0.008, 0.060, 0.03, stops_on_opening=False),
        lamp=Lamp(12.0, "dc", "#1a1a1a", "#ffffff"),
    )

    def change(**parts):
        changed = {
            name: replace(getattr(made, name), **value) if isinstance(value, dict) else value
            for name, value in parts.items()
        }
        return replace(made, **changed)

    return change
