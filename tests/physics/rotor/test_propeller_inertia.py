"""Propellers as bars, wedges and parabolas whose inertia is known in closed form."""

import numpy as np
import pytest

from sim.errors import InputError
from sim.rotor.propeller_inertia import BladeLaw, gyration_share, inertia_from_blades, inertia_from_mass

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


def test_blades_of_measured_section():
    """Two plain bars and a hub disc."""
    built = inertia_from_blades(
        [0.0, 1.3], [0.2, 0.2], [0.03, 0.03], blades=2, density_kg_m3=600.0, hub_mass_kg=5.0, hub_radius_m=0.1
    )
    blades_kg = 2 * 600.0 * 0.7 * 0.2 * 0.03 * 1.3
    assert built.mass_kg == pytest.approx(blades_kg + 5.0, rel=1e-14)
    assert built.polar_inertia_kg_m2 == pytest.approx(blades_kg * 1.3**2 / 3 + 0.5 * 5.0 * 0.1**2, rel=1e-14)


def test_a_blade_that_starts_at_the_hub_has_no_wood_inside_it():
    built = inertia_from_blades([0.2, 1.2], [0.1, 0.1], [0.02, 0.02], blades=3, density_kg_m3=500.0, section_share=1.0)
    assert built.mass_kg == pytest.approx(3 * 500.0 * 0.1 * 0.02 * 1.0, rel=1e-14)


@pytest.mark.parametrize(
    ("radius", "chord", "sentence"),
    [
        ([0.1, 0.5], [0.2], "must be as many radii, chords and thicknesses, at least two, got (2, 1, 2)"),
        ([0.5, 0.1], [0.2, 0.2], "radii must ascend, got [0.5, 0.1]"),
    ],
)
def test_sections_that_make_no_blade(radius, chord, sentence):
    with pytest.raises(InputError) as caught:
        inertia_from_blades(radius, chord, [0.02, 0.02], blades=2, density_kg_m3=600.0)
    assert str(caught.value) == f"propeller.sections: {sentence}"
