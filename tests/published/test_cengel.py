"""Y. A. Çengel, Heat and Mass Transfer. Mark: P.

Example 4.1: a thermocouple junction as a lump. Example 7.5: heat lost from a steam pipe in the wind.
"""

import math
from dataclasses import replace

import numpy as np

from sim.synchronizer.convection import cylinder_nusselt
from sim.synchronizer.cooling import STEEL_J_KG_K, Exposure, Receiver, first_below_s, temperatures_k


def test_example_4_1_a_sphere_of_1_mm_makes_99_percent_of_its_way_in_10_s(printed):
    """d 1 mm, ρ 8500 kg/m³, c 320 J/(kg K), h 210 W/(m² K); k 35 W/(m K) makes it a lump: Biot number 0.001."""
    mass_kg, area_m2 = 8500.0 * math.pi / 6.0 * 1e-9, math.pi * 1e-6
    receiver = Receiver(mass_kg * 320.0 / STEEL_J_KG_K, 0.0, 1.0, 0.001, 0.01, start_k=301.0, oil_stiff_k=260.0)
    case = Exposure(receiver, speed_m_s=5.0, air_k=300.0, pressure_pa=101325.0)
    lump = replace(case, coefficient_factor=210.0 * area_m2 / case.loss_w_k(300.5))
    times = np.linspace(0.0, 20.0, 201)
    found = first_below_s(times, temperatures_k(lump, times.tolist()), 300.01)
    printed(found, "10", "s", row="Example 4.1: time to 99 %")
    assert 210.0 * (0.001 / 6.0) / 35.0 < 0.1  # the book's Biot number 0.001: a lump


def test_example_7_5_a_pipe_of_0_1_m_in_wind_of_8_m_s(printed):
    """k .02808, Pr .7202, ν 1.896e-5: Nu 124, h 34.9 W/(m² K), 1098 W/m from 110 °C to 10 °C."""
    nusselt = cylinder_nusselt(8.0 * 0.1 / 1.896e-5, 0.7202)
    printed(nusselt, "124", row="Example 7.5: Nusselt number")
    film = nusselt * 0.02808 / 0.1
    printed(film, "34.9", "W/(m² K)", row="Example 7.5: film coefficient")
    printed(film * math.pi * 0.1 * 100.0, "1098", "W/m", row="Example 7.5: heat lost")


def test_expansion_of_steel_and_brass(printed):
    """Steel 11.7e-6 /K, brass 18.7e-6 /K: over 25 mm and 50 K brass closes by 8.75 µm on steel."""
    from sim.synchronizer.cooling import clearance_lost_m

    closed = clearance_lost_m(0.025, 50.0) * 1e6
    printed(
        closed, "8.75", "µm", row="clearance of 25 mm lost over 50 K, steel 11.7e-6 /K, brass 18.7e-6 /K", exact=True
    )
