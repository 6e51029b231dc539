"""A height by the scales that contradicts the list: it corrects nothing and doubts what it could move."""

import numpy as np
import pytest

from sim.airframe.list_correction import corrected
from sim.airframe.masses import Item, total
from sim.airframe.weighing_data import Weighed

LIST = (
    Item("wing", "wings", 98.0, 1.31, 1.9, mass_error_kg=3.1, station_error_m=0.02, waterline_error_m=0.03),
    Item("body", "fuselage", 71.0, 2.6, 1.1, mass_error_kg=2.2, station_error_m=0.04, waterline_error_m=0.02),
    Item("wheels", "gear", 33.0, 0.9, 0.3, mass_error_kg=0.7, station_error_m=0.01, waterline_error_m=0.01),
    Item("engine", "engine", 131.0, 0.13, 1.4, mass_error_kg=1.4, station_error_m=0.012, waterline_error_m=0.02),
    Item("fuel", "fuel", 60.0, 0.9, 1.5, mass_error_kg=0.4, station_error_m=0.03, waterline_error_m=0.05),
)
THERE = ("wing", "body", "wheels", "engine")
SCALES = ((0.4, 2e-4, -3e-4), (2e-4, 9e-6, 4e-6), (-3e-4, 4e-6, 2.5e-4))


def weighed(height_m=None):
    known = 2 if height_m is None else 3
    covariance = tuple(row[:known] for row in SCALES[:known])
    height_error_m = None if height_m is None else SCALES[2][2] ** 0.5
    return Weighed(
        338.0, SCALES[0][0] ** 0.5, 1.09, SCALES[1][1] ** 0.5, 0.0, 0.0, height_m, height_error_m, covariance
    )


def unknowns(state):
    return np.array([(item.mass_kg, item.station_m, item.waterline_m) for item in state.items])


@pytest.mark.parametrize("height_m", [0.9, 2.1])
def test_it_corrects_nothing_and_doubts_the_station(height_m):
    blind, found = corrected(LIST, weighed(), THERE), corrected(LIST, weighed(height_m), THERE)
    assert unknowns(found) == pytest.approx(unknowns(blind), abs=1e-12)
    centre = total(item for item in LIST if item.name in THERE)
    gap_m, variance = height_m - centre.cg_waterline_m, centre.cg_waterline_error_m**2 + SCALES[2][2]
    share = sum(item.mass_kg for item in blind.items if item.name in THERE) / blind.whole().mass_kg
    known, doubted = blind.whole(), found.whole()
    assert doubted.mass_error_kg == pytest.approx(known.mass_error_kg, rel=1e-12)
    moved_m = share * SCALES[1][2] * gap_m / variance
    assert doubted.cg_error_m**2 == pytest.approx(known.cg_error_m**2 + moved_m**2, rel=1e-9)
    raised_m = share * SCALES[2][2] * gap_m / variance
    assert doubted.cg_waterline_error_m**2 == pytest.approx(known.cg_waterline_error_m**2 + raised_m**2, rel=1e-9)


def test_one_that_agrees_corrects_the_waterlines():
    blind = corrected(LIST, weighed(), THERE)
    by_weight_m = total(item for item in blind.items if item.name in THERE).cg_waterline_m
    higher, lower = (corrected(LIST, weighed(by_weight_m + way), THERE) for way in (0.02, -0.02))
    assert lower.whole().cg_waterline_m < blind.whole().cg_waterline_m < higher.whole().cg_waterline_m
    assert higher.whole().cg_waterline_error_m < blind.whole().cg_waterline_error_m
