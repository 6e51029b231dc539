"""Lift, drag and moments of the airframe, against the coefficients they are made of."""

import math
from dataclasses import fields, replace

import pytest

from sim.aerodynamics.forces import Derivatives, air_loads, bounded_lift
from sim.aerodynamics.polar import Polar
from sim.flight.motion import Controls

POLAR = Polar(
    area_m2=16.0,
    span_m=8.0,
    chord_m=1.0,
    aspect_ratio=5.0,
    span_efficiency=0.8,
    drag_zero_lift=0.04,
    lift_zero=0.2,
    lift_max=1.5,
)
SPEED, DENSITY = 40.0, 1.2
FORCE = 0.5 * DENSITY * SPEED**2 * 16.0


def wind(alpha=0.0, beta=0.0):
    """Return u, v, w at the airspeed for an incidence and a sideslip angle."""
    return (
        SPEED * math.cos(alpha) * math.cos(beta),
        SPEED * math.sin(beta),
        SPEED * math.sin(alpha) * math.cos(beta),
    )


@pytest.mark.parametrize("alpha", [-0.1, 0.0, 0.08, 2.5])
def test_lift_stands_across_the_wind_and_drag_along_it(alpha):
    loads = air_loads(POLAR, Derivatives())((*wind(alpha), 0.0, 0.0, 0.0), DENSITY, Controls())
    lift = loads.x * math.sin(alpha) - loads.z * math.cos(alpha)
    drag = -loads.x * math.cos(alpha) - loads.z * math.sin(alpha)
    assert lift == pytest.approx(FORCE * 0.2, rel=1e-6)
    assert drag == pytest.approx(FORCE * (0.04 + 0.2**2 / (math.pi * 0.8 * 5.0)), rel=1e-6)


CAUSES = {
    "alpha": ((*wind(0.01), 0.0, 0.0, 0.0), Controls(), 0.01),
    "beta": ((*wind(0.0, 0.01), 0.0, 0.0, 0.0), Controls(), 0.01),
    "p": ((*wind(), 0.1, 0.0, 0.0), Controls(), 0.1 * 8.0 / 80.0),
    "q": ((*wind(), 0.0, 0.1, 0.0), Controls(), 0.1 * 1.0 / 80.0),
    "r": ((*wind(), 0.0, 0.0, 0.1), Controls(), 0.1 * 8.0 / 80.0),
    "elevator": ((*wind(), 0.0, 0.0, 0.0), Controls(elevator_rad=0.1), 0.1),
    "aileron": ((*wind(), 0.0, 0.0, 0.0), Controls(aileron_rad=0.1), 0.1),
    "rudder": ((*wind(), 0.0, 0.0, 0.0), Controls(rudder_rad=0.1), 0.1),
}
SIZES = {"side": FORCE, "roll": FORCE * 8.0, "pitch": FORCE * 1.0, "yaw": FORCE * 8.0}
ALL = [x.name for x in fields(Derivatives)]
GROWING = [name for name in ALL if name.endswith("_per_lift")]
NAMES = [name for name in ALL if not name.startswith("lift") and name not in {"pitch_0", "pitch_alpha_dot", *GROWING}]


@pytest.mark.parametrize("name", NAMES)
def test_each_derivative_moves_its_own_axis_by_its_own_cause(name):
    axis, cause = name.split("_")
    motion, controls, angle = CAUSES[cause]
    with_it = air_loads(POLAR, Derivatives(**{name: 0.5}))(motion, DENSITY, controls)
    without = air_loads(POLAR, Derivatives())(motion, DENSITY, controls)
    got = {"side": with_it.y - without.y} | {k: getattr(with_it, k) - getattr(without, k) for k in SIZES if k != "side"}
    assert got.pop(axis) == pytest.approx(SIZES[axis] * 0.5 * angle, rel=1e-6)
    assert set(got.values()) == {0.0}


@pytest.mark.parametrize("name", GROWING)
def test_what_grows_with_lift_counts_by_the_lift_there_is(name):
    axis, cause = name.removesuffix("_per_lift").split("_")
    motion, controls, angle = CAUSES[cause]
    size = {"side": "y", "roll": "roll", "yaw": "yaw"}[axis]
    for lift in (0.2, 1.1):
        polar = replace(POLAR, lift_zero=lift)
        with_it, without = (
            getattr(air_loads(polar, Derivatives(**{name: slope}))(motion, DENSITY, controls), size)
            for slope in (0.5, 0.0)
        )
        bounded = bounded_lift(lift, POLAR.lift_max, math.sqrt)
        assert with_it - without == pytest.approx(SIZES[axis] * 0.5 * bounded * angle, rel=1e-6)


@pytest.mark.parametrize("cause", ["alpha", "q", "elevator"])
def test_lift_follows_its_derivatives(cause):
    motion, controls, angle = CAUSES[cause]
    with_it = air_loads(POLAR, Derivatives(**{f"lift_{cause}": 0.5}))(motion, DENSITY, controls)
    without = air_loads(POLAR, Derivatives())(motion, DENSITY, controls)
    assert without.z - with_it.z == pytest.approx(FORCE * 0.5 * angle, rel=1e-3)


def test_the_lag_of_the_downwash_counts_by_the_rate_of_incidence():
    loads = air_loads(POLAR, Derivatives(pitch_alpha_dot=-4.0))((*wind(), 0.0, 0.0, 0.0), DENSITY, Controls())
    assert loads.pitch_per_alpha_dot == pytest.approx(FORCE * -4.0 / (2.0 * SPEED), rel=1e-6)


def test_small_lift_is_linear_and_great_lift_is_bounded():
    assert bounded_lift(0.3, 1.5, math.sqrt) == pytest.approx(0.3, rel=1e-6)
    assert bounded_lift(0.75, 1.5, math.sqrt) == pytest.approx(0.75, rel=5e-4)
    assert bounded_lift(1.5, 1.5, math.sqrt) == pytest.approx(1.5 * 2.0**-0.125, rel=1e-12)
    assert 1.4999 < bounded_lift(6.0, 1.5, math.sqrt) < 1.5
    assert bounded_lift(-6.0, 1.5, math.sqrt) == -bounded_lift(6.0, 1.5, math.sqrt)


def test_air_at_rest_does_nothing():
    loads = air_loads(POLAR, Derivatives(pitch_0=0.05))((0.0,) * 6, DENSITY, Controls())
    assert max(abs(x) for x in loads[:7]) < 1e-3
