"""Swinging tests: bodies whose inertia is known, swung exactly, and stated errors that hold the truth."""

import math

import numpy as np
import pytest

from sim.errors import InputError
from sim.rotor.swing import GRAVITY_M_S2, Timing, period, pivot, swing, wing_air_inertia, wires
from sim.units.parsing import Measured

DRAWS = 2000


def hung(mass=11.0, radius=0.15, length=2.4):
    return {"mass": mass, "radius": radius, "length": length, "carrier_mass": 0.0, "carrier_inertia": 0.0}


def exact(readings):
    return {name: Measured(value) for name, value in readings.items()}


def wire_period(inertia, body, amplitude):
    """Period of the exact pendulum on two upright wires, energy integral with the rise of the body in it."""
    from scipy.integrate import quad

    mass, radius, length = body["mass"], body["radius"], body["length"]

    def drop(angle):
        return math.sqrt(length**2 - 4.0 * radius**2 * math.sin(angle / 2.0) ** 2)

    def rate(u):
        """Time over the angle u, where the body stands at A sin u; differences written so that none cancels."""
        angle = amplitude * math.sin(u)
        short = 2.0 * amplitude * math.sin((math.pi / 2 - u) / 2.0) ** 2
        fallen = 4.0 * radius**2 * math.sin((amplitude + angle) / 2.0) * math.sin(short / 2.0)
        climb = radius**2 * math.sin(angle) / drop(angle)
        speed2 = 2.0 * mass * GRAVITY_M_S2 * fallen / (drop(angle) + drop(amplitude)) / (inertia + mass * climb**2)
        return amplitude * math.cos(u) / math.sqrt(speed2)

    return 4.0 * quad(rate, 0.0, math.pi / 2)[0]


@pytest.mark.parametrize("amplitude_deg", [1.0, 10.0, 20.0])
def test_wires_recover_an_exactly_swung_body(amplitude_deg):
    body, inertia = hung(), 0.61
    timing = period(
        [Measured(wire_period(inertia, body, math.radians(amplitude_deg)), 1e-6)], 1, math.radians(amplitude_deg)
    )
    assert swing("trifilar", exact(body), timing).polar_inertia_kg_m2 == pytest.approx(inertia, rel=3e-4)


@pytest.mark.parametrize("amplitude_deg", [1.0, 10.0, 20.0])
def test_a_pivot_recovers_a_rod(amplitude_deg):
    """A thin rod about its end, period by the complete elliptic integral."""
    from scipy.special import ellipk

    length, amplitude = 1.2, math.radians(amplitude_deg)
    small = 2.0 * math.pi * math.sqrt(length / 1.5 / GRAVITY_M_S2)
    long = small * 2.0 / math.pi * ellipk(math.sin(amplitude / 2.0) ** 2)
    timing = period([Measured(20 * long, 0.001)], 20, amplitude)
    found = swing("compound", exact({"mass": 3.0, "arm": length / 2.0}), timing)
    assert found.polar_inertia_kg_m2 == pytest.approx(3.0 * length**2 / 12.0, rel=1e-3)


def test_a_carrier_is_taken_off():
    bare, cradle = hung(), 0.2
    long = 2.0 * math.pi * math.sqrt((0.6 + cradle) * 2.4 / ((11.0 + 4.0) * GRAVITY_M_S2 * 0.15**2))
    assert wires(bare | {"carrier_mass": 4.0, "carrier_inertia": cradle, "period": long}) == pytest.approx(
        0.6, rel=1e-13
    )


def test_at_the_radius_of_gyration_the_arm_hardly_matters():
    rod = {"mass": 3.0, "arm": 0.4, "period": 2.0 * math.pi * math.sqrt(2 * 0.4 / GRAVITY_M_S2)}
    assert pivot(rod) == pytest.approx(3.0 * 0.4**2)
    assert pivot(rod | {"arm": 0.401}) == pytest.approx(pivot(rod), rel=1e-5)


def test_the_error_is_that_of_the_formula():
    """The radius enters squared, the length once: 1 % of each is 2 % and 1 %."""
    body = exact(hung()) | {"radius": Measured(0.15, 0.0015), "length": Measured(2.4, 0.024)}
    found = swing("bifilar", body, Timing(4.0, 0.0, 0.0, 1))
    share = math.hypot(0.02, 0.01)
    assert found.standard_error_kg_m2 == pytest.approx(share * found.polar_inertia_kg_m2, rel=1e-12)
    assert found.largest_error == "radius"
    assert found.high_kg_m2 - found.polar_inertia_kg_m2 == pytest.approx(1.95996 * found.standard_error_kg_m2, rel=1e-5)


def covered(method, body, inertia, errors, timings, clock_s):
    """Share of simulated tests whose 95 % limits hold the truth."""
    rng = np.random.default_rng(20)
    law = {"compound": pivot}.get(method, wires)
    slope = law(body | {"period": 1.0}) - law(body | {"period": 0.0})
    truth_s = math.sqrt((inertia - law(body | {"period": 0.0})) / slope)
    hits = 0
    for _ in range(DRAWS):
        read = {
            name: Measured(value + errors.get(name, 0.0) * rng.normal(), errors.get(name, 0.0))
            for name, value in body.items()
        }
        times = [Measured(10 * truth_s + clock_s * rng.normal()) for _ in range(timings)]
        found = swing(method, read, period(times, 10))
        hits += found.low_kg_m2 <= inertia <= found.high_kg_m2
    return hits / DRAWS


@pytest.mark.parametrize(
    ("method", "body", "inertia", "errors", "timings"),
    [
        ("bifilar", hung(), 0.61, {"mass": 0.05, "radius": 0.001, "length": 0.006}, 5),
        ("trifilar", hung(), 0.61, {}, 3),
        ("bifilar", hung(), 0.61, {"radius": 0.0005}, 4),
        ("compound", {"mass": 90.0, "arm": 0.8}, 31.0, {"mass": 0.3, "arm": 0.003}, 6),
    ],
)
def test_the_stated_error_holds_the_truth_95_times_in_100(method, body, inertia, errors, timings):
    assert covered(method, body, inertia, errors, timings, 0.2) == pytest.approx(0.95, abs=0.02)


def test_the_air_of_a_wing_is_a_roller_on_every_chord():
    """Strips of air, a cylinder of the chord's diameter each, summed along the span."""
    along = np.linspace(-4.25, 4.25, 20_001)
    strips = 1.225 * np.pi / 4 * 1.4**2 * along**2
    summed = 2 * float((strips[1:] + strips[:-1]).sum() / 2 * (along[1] - along[0]))
    assert wing_air_inertia(8.5, 1.4) == pytest.approx(summed, rel=1e-7)


def test_a_single_timing_needs_a_tolerance():
    with pytest.raises(InputError) as caught:
        period([Measured(52.0)], 10)
    assert str(caught.value) == 'times_s: must be given at least twice, or once with a tolerance (±), got "1" without'


def test_a_clock_that_leaves_no_inertia():
    with pytest.raises(InputError) as caught:
        swing("compound", exact({"mass": 3.0, "arm": 0.6}), Timing(1.0, 0.0, 0.01, 1))
    assert str(caught.value) == 'times_s: must be long enough for an inertia above 0 kg m^2, got a period of "1 s"'
