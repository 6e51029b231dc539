"""Limit load factors of light airplanes.

14 CFR Part 23, 2014 text, 23.337 and 23.341, read in a public reproduction. The examples were worked from the text by
hand: 6000 lb, normal category; wing loading 7 lb/ft², chord 4.5 ft, lift slope 4.2, 80 knots, gust 50 ft/s, sea level.
Mark: P R.
"""

from sim.structures.wing_cases import WingLoading, gust_increment, manoeuvring_factor

FOOT_M, POUND_KG, KNOT_M_S = 0.3048, 0.45359237, 1852.0 / 3600.0


def test_manoeuvring_load_factors(printed):
    for pounds, factor in ((4118.0, "3.80"), (6000.0, "3.60")):
        printed(manoeuvring_factor(pounds * POUND_KG, "normal"), factor, row=f"normal category at {pounds:.0f} lb")
    printed(manoeuvring_factor(1500.0 * POUND_KG, "normal"), "3.8", row="normal category, the most that is asked")
    printed(manoeuvring_factor(700.0, "utility"), "4.4", row="utility category")
    printed(manoeuvring_factor(700.0, "acrobatic"), "6.0", row="acrobatic category")


def test_a_gust(printed):
    loading = WingLoading(
        mass_kg=700.0 * POUND_KG,
        area_m2=100.0 * FOOT_M**2,
        chord_m=4.5 * FOOT_M,
        lift_max=1.4,
        lift_slope=4.2,
    )
    ours = 1.0 + gust_increment(loading, 50.0 * FOOT_M, 80.0 * KNOT_M_S)
    printed(ours, "3.740", row="gust of 50 ft/s at 80 knots", within=0.006, why="498 of the rule is rounded")
