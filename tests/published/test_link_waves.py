"""Speed of a push through a link, √(K/ρ). Mark: M (property values): oil 1.5 GPa, 870 kg/m³; steel 207 GPa, 7850."""

from sim.synchronizer.link_wave import MATERIALS, OilColumn, oil_wave_m_s, solid_wave_m_s


def test_wave_in_a_steel_rod(printed):
    printed(solid_wave_m_s("rod", MATERIALS["steel"]), "5135", "m/s", row="rod, from its modulus and density")


def test_wave_in_oil_without_air_in_a_pipe_that_does_not_yield(printed):
    printed(oil_wave_m_s(OilColumn(), MATERIALS["steel"]), "1313", "m/s", row="oil, from its modulus and density")
