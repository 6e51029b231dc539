"""More engines than there are inks: each picture is still drawn, every engine in its legend."""

import pytest
from airplanes import BIPLANE

from sim.model.model import Model
from sim.scenario.reading import load


@pytest.fixture(scope="module")
def crowded():
    scenario = load(BIPLANE)
    engines = {f"engine{i}": scenario.powerplant["rotary"] for i in range(8)}
    return Model(scenario.model_copy(update={"powerplant": engines, "balance": None, "weighing": None}))


def legends(figure):
    boxes = [axes.get_legend() for axes in figure.axes]
    return {text.get_text().split(" ")[0].rstrip(",") for box in boxes if box for text in box.get_texts()}


def drawn(name, model):
    from sim.studies.handling import handling
    from sim.studies.maneuver import maneuver
    from sim.studies.modes import modes
    from sim.studies.speeds import speeds
    from viz.figures import handling as of_handling
    from viz.figures import maneuver as of_maneuver
    from viz.figures import modes as of_modes
    from viz.figures import speeds as of_speeds

    if name == "handling":
        return of_handling.draw(handling(model, banks_deg=(-30.0, 0.0, 30.0)), "us")
    if name == "modes":
        return of_modes.draw(modes(model), "us")
    if name == "maneuver":
        return of_maneuver.draw(maneuver(model, "rudder-kick", flown_s=2.0), "us")
    return of_speeds.draw(speeds(model), "us")


@pytest.mark.parametrize("name", ["handling", "modes", "maneuver", "speeds"])
def test_every_engine_is_named(crowded, name):
    assert {f"engine{i}" for i in range(8)} <= legends(drawn(name, crowded))
