"""The matrix differentiated by symbols and the one by complex steps, and their roots, are the same."""

import numpy as np
import pytest
import sympy as sp
from airplanes import BIPLANE

from sim.derivation.modes import DAMPED, FREE, NUTATION, derive_modes, differentiated
from sim.flight.modes import system_matrix
from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.modes import modes
from sim.studies.turns import turns


@pytest.fixture(scope="module", params=[0.0, 0.7])
def flown(request):
    flying = Model(load(BIPLANE)).airplane("rotary")
    found = turns(flying, request.param)
    return flying, found.state[:, 0].tolist(), found.controls(0), request.param


@pytest.mark.slow
def test_symbols_and_complex_steps_differentiate_alike(flown):
    flying, state, controls, _ = flown
    ours, theirs = differentiated(flying.airplane, state, controls), system_matrix(flying.airplane, state, controls)
    np.testing.assert_allclose(ours, theirs, rtol=1e-11, atol=1e-12)


def test_the_roots_are_those_that_modes_prints(flown):
    flying, state, controls, bank = flown
    printed = modes(Model(load(BIPLANE)), banks_deg=[np.degrees(bank)]).flights[0].modes
    derived = derive_modes(flying.airplane, state, controls, angular_momentum_kg_m2_s=1.0).results[1:]
    ours = sorted((one.value, other.value) for one, other in zip(derived[::2], derived[1::2], strict=True))
    theirs = sorted((mode.real_per_s, mode.imag_rad_s) for mode in printed)
    np.testing.assert_allclose(ours, theirs, rtol=1e-12, atol=1e-12)


def test_the_rotor_moves_damping_about_and_makes_none():
    momentum = sp.Symbol("h", real=True)
    assert sp.diff(DAMPED.trace(), momentum) == 0
    assert sp.diff(DAMPED.det(), momentum) != 0
    assert FREE.trace() == 0
    assert sp.simplify(NUTATION**2 - momentum**2 / sp.prod(sp.symbols("J_y J_z", real=True))) == 0
