"""Speed of a push through a link, √(K/ρ). Mark: M (property values): oil 1.5 GPa, 870 kg/m³; steel 207 GPa, 7850."""

import pytest

from sim.synchronizer.link import WAVE_SPEED_M_S, wave_speed_m_s


@pytest.mark.parametrize(
    ("kind", "modulus", "density", "speed"), [("oil", 1.5e9, 870.0, "1313"), ("rod", 207e9, 7850.0, "5135")]
)
def test_wave_speed(kind, modulus, density, speed, printed):
    printed(wave_speed_m_s(modulus, density), speed, "m/s", row=f"{kind}, from its modulus and density")
    printed(WAVE_SPEED_M_S[kind], speed, "m/s", row=f"{kind}, by default")
