"""Bands of the speed at which the rotor's share doubles: each drawn is that of an airplane alone."""

from dataclasses import replace

import numpy as np
import pytest
from drawn import alone, sure
from shared import built

from sim.studies import bands
from sim.studies.doubling_bands import drawn_doubling_m_s
from sim.studies.rotor_effect import rotor_effect, rotor_shares
from sim.units.quantities import band_ends


def test_each_speed_is_that_of_an_airplane_alone():
    """At the speed found the share of that airplane, alone, is twice what it is at the speed of the study."""
    flying = built().airplane("rotary")
    many = bands.drawn_flying(built(), flying, 2)
    doubles, slowest = drawn_doubling_m_s(many, "rudder", "left")
    told = np.flatnonzero(np.isfinite(doubles))[:6]
    assert told.size == 6
    for number in told:
        one = replace(flying, airplane=alone(many.airplane, int(number)))
        speeds = np.array([flying.speed_m_s, doubles[number]])
        share = np.abs(rotor_shares(one, speeds, np.radians(-45.0))["rudder"])
        assert share[1] == pytest.approx(2.0 * share[0], rel=0.01)
        assert slowest[number] <= doubles[number] < flying.speed_m_s
    assert (np.isnan(doubles) | np.isfinite(slowest)).all()


def test_an_airplane_known_for_certain_doubles_where_the_study_says():
    effect = rotor_effect(built())
    flying = built().airplane("rotary")
    doubles, slowest = drawn_doubling_m_s(
        bands.drawn_flying(sure(flying), flying, 1), effect.doubling.control, effect.doubling.side
    )
    assert doubles == pytest.approx(effect.doubling.speed_m_s, rel=0.005)
    assert slowest == pytest.approx(effect.doubling.slowest_m_s, rel=0.01)


def test_the_speeds_lie_in_their_bands():
    found = rotor_effect(built(), bands=True).doubling
    for name in ("speed_m_s", "slowest_m_s"):
        low, high = (getattr(found, end) for end in band_ends(name))
        assert low < getattr(found, name) < high
    assert 0.5 < found.doubles_probability <= 1.0
    assert rotor_effect(built()).doubling.speed_low_m_s is None
