"""Round steel tubes as columns.

E. F. Bruhn, Analysis and Design of Flight Vehicle Structures, Tri-State 1965, chapter C4, read in a public
reproduction: 4130 normalised, Fc = 79 500 - 51.9 (L'/ρ)^1.5 psi up to L'/ρ 91, then 286e6/(L'/ρ)²; of 150 ksi steel
145 000 - 18.36 (L'/ρ)² up to 63. The tubes were worked from these by hand. Mark: P R.
"""

import pytest

from sim.structures.column import column_strength_n, column_stress_pa
from sim.structures.cross_section import tube
from sim.structures.materials import materials

INCH_M, POUND_N = 0.0254, 4.4482216152605
PSI_PA = POUND_N / INCH_M**2
STEEL = materials()["4130 normalised"]


def test_the_short_column_formula_of_4130(printed):
    ours = 79_500.0 - column_stress_pa(60.0, modulus_pa=STEEL.modulus_pa, column_pa=STEEL.column_pa, power=1.5) / PSI_PA
    printed(
        ours / 60.0**1.5, "51.9", "psi", row="4130: factor on the slenderness", within=0.2, why="meets Euler smoothly"
    )


def test_the_long_column_formula_of_4130(printed):
    ours = column_stress_pa(120.0, modulus_pa=STEEL.modulus_pa, column_pa=STEEL.column_pa, power=1.5) / PSI_PA
    printed(1e-6 * ours * 120.0**2, "286", "1e6 psi", row="4130: Euler's factor")


def test_the_parabola_of_150_ksi_steel(printed):
    ours = 145_000.0 - column_stress_pa(40.0, modulus_pa=286e6 / 9.8696 * PSI_PA, column_pa=145e3 * PSI_PA) / PSI_PA
    printed(
        ours / 40.0**2,
        "18.36",
        "psi",
        row="150 ksi: factor on the slenderness squared",
        within=0.03,
        why="his 18.36 is 18.38",
    )


@pytest.mark.parametrize(
    ("diameter", "wall", "length", "fixity", "load"),
    [
        (1.0, 0.049, 30.0, 1.0, "5248"),
        (1.0, 0.049, 30.0, 2.0, "7838"),
        (1.25, 0.058, 60.0, 1.0, "3072"),
        (1.25, 0.058, 60.0, 2.0, "6144"),
    ],
)
def test_tubes(printed, diameter, wall, length, fixity, load):
    section = tube(diameter * INCH_M, wall * INCH_M)
    ours = column_strength_n(section, STEEL, length * INCH_M, fixity=fixity) / POUND_N
    name = f"4130 tube {diameter} x {wall} x {length:g} in, fixity {fixity:g}"
    printed(ours, load, "lb", row=name, share=0.004, why="the short-column formula meets Euler smoothly")
