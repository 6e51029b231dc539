"""Propellers as bars, wedges and parabolas whose inertia is known in closed form."""

import numpy as np
import pytest

from sim.rotor.propeller_inertia import BladeLaw, gyration_share, inertia_from_mass

BAR = BladeLaw((0.0, 1.0), (1.0, 1.0), (1.0, 1.0))
WEDGE = BladeLaw((0.0, 1.0), (1.0, 1.0), (1.0, 0.0))
PYRAMID = BladeLaw((0.0, 1.0), (1.0, 0.0), (1.0, 0.0))


@pytest.mark.parametrize(("law", "squared"), [(BAR, 1 / 3), (WEDGE, 1 / 6), (PYRAMID, 1 / 10)])
def test_closed_forms(law, squared):
    assert gyration_share(law) ** 2 == pytest.approx(squared, rel=1e-14)
    assert inertia_from_mass(12.0, 2.6, law) == pytest.approx(12.0 * 1.3**2 * squared, rel=1e-14)


def test_more_stations_on_the_same_lines_change_nothing():
    fine = np.linspace(0.0, 1.0, 21)
    law = BladeLaw(tuple(fine), tuple(1.0 - fine), tuple(1.0 - fine))
    assert gyration_share(law) == pytest.approx(gyration_share(PYRAMID), rel=1e-13)
