"""Line contact in its limits."""

import numpy as np
import pytest

from sim.display.contact import MATERIALS, contact_stress

STEEL = MATERIALS["steel"]


def test_the_pressure_carries_the_force():
    """Half an ellipse of pressure over the contact's width adds up to the force."""
    force, width, curvature = 10.0, 0.005, 150.0
    peak = float(contact_stress(force, width, curvature, (STEEL, STEEL)))
    softness = 2.0 * (1.0 - STEEL.poisson_ratio**2) / STEEL.elastic_modulus_pa
    half = np.sqrt(4.0 * force * softness / (np.pi * width * curvature))
    assert np.pi / 2.0 * peak * half * width == pytest.approx(force)


def test_a_softer_cam_is_pressed_less():
    stresses = [float(contact_stress(10.0, 0.005, 150.0, (body, STEEL))) for body in MATERIALS.values()]
    assert stresses == sorted(stresses, reverse=True) or stresses[0] == max(stresses)
    assert float(contact_stress(40.0, 0.005, 150.0, (STEEL, STEEL))) == pytest.approx(2.0 * stresses[0])


def test_no_force_no_stress_even_on_a_cusp():
    assert contact_stress(np.array([0.0, 1.0]), 0.005, np.array([np.inf, np.inf]), (STEEL, STEEL)).tolist() == [
        0.0,
        np.inf,
    ]
