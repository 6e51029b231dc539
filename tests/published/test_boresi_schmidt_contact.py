"""A. P. Boresi & R. J. Schmidt, Advanced Mechanics of Materials, chapter 17: line contact of two steel discs. Mark P.

R 40 mm, width 20 mm, E 200 GPa, Poisson's ratio 0.29, 24.1 kN. The book prints 1445 MPa; recomputed 1447: the book
works with coefficients rounded to three digits.
"""

from sim.display.contact import Material, contact_stress

DISC = Material(200e9, 0.29, 0.0)


def test_the_largest_pressure(printed):
    stress_mpa = float(contact_stress(24.1e3, 0.020, 2.0 / 0.040, (DISC, DISC))) / 1e6
    why = "the book's coefficients have three digits"
    printed(stress_mpa, "1445", "MPa", row="largest pressure, as printed", share=0.002, why=why)
    printed(stress_mpa, "1447", "MPa", row="largest pressure, recomputed without rounding", mark="X")
