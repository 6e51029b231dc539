"""Full-scale propellers with Clark Y blades in the wind tunnel, NACA Report 640.

Biermann and Hartman, Tests of Five Full-Scale Propellers in the Presence of a Radial and a Liquid-Cooled Engine
Nacelle, Including Tests of Two Spinners, NACA Report 640, 1938: propeller 5868-9, 10 ft, points read off the charts.
Mark: P (read in a transcription of the charts; title from memory).

Thickness of the blade: not seen; the section is the one of every propeller here, flat-bottomed and 9 % thick. The
tunnel thrust is net of the nacelle's interference, which is not computed. A point is read to ±0.01 in J and ±0.002 in
CT, which makes ±0.004 in CT and ±0.003 in CP on the steep part of the curves; to that 5 % of CT and 7 % of CP are added
where the blade is not stalled. Good: three blades. Fair: two at 35°, CT 7 to 10 % high. Poor: low J at 25° and 35°,
where the inner half is stalled (CT up to 14 % high, CP up to 20 % low), and the last tenth before zero thrust, which
comes 1 to 3 % of J too early with three blades and too late with two.
"""

import math

import numpy as np
import pytest

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_geometry import tabled_blade
from sim.propulsion.engine_propeller import Engine, shaft_loads
from sim.propulsion.propeller_fit import fitted_propeller

RADII = [0.20, 0.25, 0.30, 0.35, 0.40, 0.427, 0.457, 0.487, 0.527, 0.581, 0.637, 0.681, 0.75, 0.80, 0.85, 0.90, 0.95]
CHORDS = [
    *(0.0377, 0.0451, 0.0532, 0.0611, 0.0687, 0.0725, 0.0747, 0.0760, 0.0763),
    *(0.0744, 0.0710, 0.0671, 0.0620, 0.0565, 0.0514, 0.0448, 0.0380),
]
PITCH_RADII = [
    *(0.198, 0.225, 0.247, 0.272, 0.299, 0.325, 0.347, 0.371, 0.396),
    *(0.427, 0.449, 0.476, 0.498, 0.60, 0.70, 0.80, 0.90, 0.95),
]
PITCHES = [
    *(0.462, 0.500, 0.536, 0.559, 0.586, 0.613, 0.624, 0.633, 0.639),
    *(0.639, 0.636, 0.633, 0.633, 0.630, 0.630, 0.633, 0.636, 0.639),
]
"""Geometric pitch over diameter, with 15° at three quarters of the radius."""
RPM = {15: 1000.0, 25: 800.0, 35: 800.0}
STALLED_BELOW = {15: 0.0, 25: 0.5, 35: 1.1}
"""Setting [°] -> advance ratio below which the inner half of the blade is stalled."""
POINTS = {
    (3, 15): (
        "0.109/0.13/0.0580 0.194/0.12/0.0576 0.263/0.11/0.0567 0.332/0.10/0.0555 0.385/0.09/0.0535 0.446/0.08/0.0502 "
        "0.503/0.07/0.0461 0.551/0.06/0.0416 0.600/0.05/0.0371 0.649/0.04/0.0314 0.697/0.03/0.0253 0.734/0.02/0.0188 "
        "0.787/0.01/0.0114"
    ),
    (3, 25): (
        "0.351/0.16/0.1174 0.458/0.15/0.1178 0.560/0.14/0.1178 0.634/0.13/0.1158 0.704/0.12/0.1121 0.762/0.11/0.1069 "
        "0.815/0.10/0.1024 0.873/0.09/0.0960 0.926/0.08/0.0887 0.963/0.07/0.0806 1.012/0.06/0.0721 1.058/0.05/0.0628 "
        "1.103/0.04/0.0534 1.152/0.03/0.0433 1.193/0.02/0.0324 1.242/0.01/0.0215"
    ),
    (2, 35): (
        "0.607/0.110/0.1570 0.865/0.105/0.1441 1.058/0.100/0.1362 1.178/0.090/0.1276 1.266/0.080/0.1186 "
        "1.338/0.070/0.1082 1.411/0.060/0.0971 1.484/0.050/0.0845 1.556/0.040/0.0723 1.629/0.030/0.0579 "
        "1.698/0.020/0.0432 1.764/0.010/0.0282"
    ),
}
"""Blades, setting [°] -> J/CT/CP, every point that was read."""
LAST_TENTH = {15: 0.75, 25: 1.16, 35: 1.65}
"""Setting [°] -> nine tenths of the advance ratio of zero thrust."""
ROWS = [(*key, *point.split("/")) for key, points in POINTS.items() for point in points.split()]


def turned(blades, setting_deg):
    angles = np.arctan(np.interp(RADII, PITCH_RADII, PITCHES) / (math.pi * np.array(RADII)))
    return tabled_blade(blades, RADII, CHORDS, angles).turned(math.radians(setting_deg - 15.0))


def loads(blades, setting_deg, ratios):
    tip_mach = math.pi * RPM[setting_deg] / 60.0 * 3.048 / 340.3
    return blade_loads(turned(blades, setting_deg), np.array(ratios), tip_mach=tip_mach)


@pytest.mark.parametrize(("blades", "setting", "ratio", "ct", "cp"), ROWS)
def test_thrust_and_power(blades, setting, ratio, ct, cp, printed):
    found, row = loads(blades, setting, [float(ratio)]), f"{blades} blades, {setting}°, J {ratio}"
    shares, more, where, why = (0.05, 0.07), (0.004, 0.003), "", "reading, and 5 % and 7 %"
    if float(ratio) < STALLED_BELOW[setting]:
        shares, where, why = (
            (0.15, 0.25),
            ", inner half stalled",
            "reading, and 15 % and 25 % with the inner half stalled",
        )
    elif float(ratio) > LAST_TENTH[setting]:
        shares, more, where, why = (
            (0.05, 0.1),
            (0.006, 0.006),
            ", last tenth of J",
            "reading, where the curves are steepest",
        )
    within = (shares[0] * float(ct) + more[0], shares[1] * float(cp) + more[1])
    how = {"why": why}
    printed(
        float(found.ct[0]),
        ct,
        row=f"CT, {row}",
        within=round(within[0], 5),
        kind=f"full-scale propeller: CT{where}",
        **how,
    )
    printed(
        float(found.cp[0]),
        cp,
        row=f"CP, {row}",
        within=round(within[1], 5),
        kind=f"full-scale propeller: CP{where}",
        **how,
    )


def test_setting_of_the_table(printed):
    """The pitch of the table at three quarters of the radius is the setting that the charts name."""
    ours = math.degrees(math.atan(float(np.interp(0.75, PITCH_RADII, PITCHES)) / (0.75 * math.pi)))
    how = {"within": 0.05, "why": "read between two points of the table", "mark": "R"}
    printed(ours, "14.98", "°", row="setting of the pitch table at three quarters of the radius", **how)


@pytest.mark.parametrize(("blades", "setting"), POINTS)
def test_the_closed_form_of_the_flights(blades, setting):
    """Its thrust and power are as near to the chart, and a hundredth of those at rest, where no blade is stalled."""
    turns = RPM[setting] / 60.0
    propeller = fitted_propeller(turned(blades, setting), diameter_m=3.048, tip_mach=math.pi * turns * 3.048 / 340.3)
    airscrew = shaft_loads(Engine(), propeller)
    for row in POINTS[blades, setting].split():
        ratio, ct, cp = map(float, row.split("/"))
        _, _, torque, thrust = airscrew((math.tau * turns, ratio * turns * 3.048), 1.0, (0.0,) * 5)
        if STALLED_BELOW[setting] <= ratio <= LAST_TENTH[setting]:
            assert thrust / (turns**2 * 3.048**4) == pytest.approx(ct, abs=0.05 * ct + 0.005)
            assert math.tau * torque / (turns**2 * 3.048**5) == pytest.approx(cp, abs=0.07 * cp + 0.004)


def test_power_at_rest(printed):
    printed(float(loads(3, 15, [0.0]).cp[0]), "0.0576", row="CP at rest, 3 blades, 15°", share=0.05, why="reading")


@pytest.mark.parametrize(
    ("blades", "setting", "best", "at"), [(3, 15, "0.83", 0.68), (3, 25, "0.843", 1.03), (2, 35, "0.878", 1.4)]
)
def test_best_efficiency(blades, setting, best, at, printed):
    ratios = np.linspace(0.5 * at, 1.3 * at, 161)
    found = loads(blades, setting, ratios)
    efficiency = np.where(found.ct > 0.0, ratios * found.ct / found.cp, 0.0)
    row, why = f"best efficiency, {blades} blades, {setting}°", "CT and CP each within some percent"
    printed(float(efficiency.max()), best, row=row, within=0.03, why=why)
    assert ratios[efficiency.argmax()] == pytest.approx(at, rel=0.15)
