"""Usual ranges, each with its source; "common practice, no source" where there is none."""

from __future__ import annotations

from math import radians, tau

from sim.model.plausibility.remark import Usual
from sim.units.convert import INCH_M, per_s

PRACTICE = "common practice, no source"

TIP_MACH = Usual(0.3, 0.9, f"{PRACTICE}: losses grow above about 0.85 to 0.9; slower tips are mostly a wrong ratio")
LINK_OVER_MEASURED = Usual(0.9, 1.1, f"{PRACTICE}: a link computed within a tenth of what was measured", percent=True)
LEAK_OVER_IDLE = Usual(
    None, 0.5, f"{PRACTICE}: beyond a half the lead at idle is more than twice that of a tight link", percent=True
)
GEAR_RATIO = Usual(None, 1.0, f"{PRACTICE}: reduction gears slow the propeller down")
TAIL_WHEEL_CLEARANCE = Usual(
    9.0 * INCH_M, None, "14 CFR 23.925(a), 2014 text: tail wheel", "station_m", "14 CFR 23.925, tail wheel"
)
NOSE_WHEEL_CLEARANCE = Usual(
    7.0 * INCH_M, None, "14 CFR 23.925(a), 2014 text: nose wheel", "station_m", "14 CFR 23.925, nose wheel"
)
BLADE_CHORD_SHARE = Usual(0.03, 0.12, f"{PRACTICE}; 0.038 to 0.076 in NACA TR 640, 1938, propeller 5868-9")
STATIC_SHARE = Usual(
    0.75, 1.15, f"{PRACTICE}: 82 to 95 %, widened by the error of blade elements at rest", percent=True
)
PITCH_SHARE = Usual(0.4, 1.6, PRACTICE)

ROTARY_SPEED = Usual(tau * per_s(700.0), tau * per_s(1800.0), PRACTICE, "speed_rad_s")
FIXED_SPEED = Usual(tau * per_s(1000.0), tau * per_s(7000.0), PRACTICE, "speed_rad_s")
CRUISE_SHARE = Usual(0.6, 1.0, PRACTICE)
IDLE_SHARE = Usual(0.1, 0.6, PRACTICE)

ENGINE_MASS_OVER_POWER = (0.0005, 0.005)
"""Mass of an engine over its power [kg/W]: common practice, no source."""
EFFICIENCY = Usual(0.5, 0.88, f"{PRACTICE}: fixed pitch")

LIFT_MAX = Usual(0.9, 2.2, f"{PRACTICE}: without flaps")
DRAG_ZERO_LIFT = Usual(0.015, 0.12, PRACTICE)
SPAN_EFFICIENCY = Usual(0.4, 1.0, f"{PRACTICE}: 1 is the limit of the equivalent monoplane")
SECTION_SLOPE = Usual(4.5, 7.0, f"{PRACTICE}: 2 π in theory")
SECTION_MOMENT_APART = 0.035
"""Common practice: moments of sections measured lie within it of thin-airfoil theory."""
BUILT_UP_DEVIATIONS = 2.0
"""Standard deviations to either side of what is built up: 95 % where they are honest."""
ROLL_RADIUS = Usual(0.15, 0.4, "Raymer, Aircraft Design, radii of gyration: 0.25 (from memory), widened")
PITCH_RADIUS = Usual(0.25, 0.6, "Raymer, Aircraft Design, radii of gyration: 0.38 (from memory), widened")
YAW_RADIUS = Usual(0.25, 0.6, "Raymer, Aircraft Design, radii of gyration: 0.39 (from memory), widened")

BAY_OVER_SPAR_DEPTH = Usual(
    None, 50.0, f"{PRACTICE}: spars of braced wings bend and buckle sideways beyond; cantilever spars stay far below"
)
BRACING_ANGLE = Usual(
    20.0, None, f"{PRACTICE}: a flatter wire or strut bears three times the lift and more", "front_view_deg"
)
STRUT_LEAN = Usual(
    None, 60.0, f"{PRACTICE}: a strut that leans farther bears twice the load that it holds and more", "front_view_deg"
)
GAP_SHARE = Usual(0.7, 1.5, f"{PRACTICE}: closer planes lose lift to each other")
STAGGER_SHARE = Usual(-0.75, 0.75, PRACTICE)
DIHEDRAL = Usual(radians(-2.0), radians(7.0), PRACTICE, "dihedral_rad")
WING_INCIDENCE = Usual(radians(-2.0), radians(6.0), PRACTICE, "incidence_rad")
TAIL_INCIDENCE = Usual(radians(-6.0), radians(6.0), PRACTICE, "incidence_rad")
ASPECT = Usual(4.0, 12.0, PRACTICE)
BIPLANE_LOADING = (15.0, 65.0)
"""Mass over the area of two or more planes [kg/m²]: common practice, no source."""
MONOPLANE_LOADING = (20.0, 110.0)
"""Mass over the area of a single plane [kg/m²]: common practice, no source."""
POWER_OVER_MASS = (70.0, 400.0)
"""Power over mass [W/kg]: common practice, no source."""

STICK_TRAVEL = Usual(0.2, 0.6, f"{PRACTICE}: what an arm reaches between seat and panel", "stick_travel_m")
PEDAL_TRAVEL = Usual(0.08, 0.35, f"{PRACTICE}: what a leg reaches", "pedal_travel_m")
ELEVATOR_SPREAD = Usual(1.0, 7.0, f"{PRACTICE}: fabric over wood or tube about 2.4 kg/m²", "spread_kg_per_m2")
TAIL_VOLUME = Usual(0.3, 0.7, "Raymer, Aircraft Design, tail volumes: 0.50 to 0.70 (from memory); down to 0.3 built")
FIN_VOLUME = Usual(0.02, 0.06, "Raymer, Aircraft Design, tail volumes: 0.04 (as quoted); 0.02 to 0.06 built")
CHORD_SHARE = Usual(0.0, 1.0, f"{PRACTICE}: with a tail behind it lies within the chord", percent=True)
STATIC_MARGIN = Usual(0.05, None, f"{PRACTICE}, of the mean chord", percent=True)

LONGERONS_SHARE = Usual(0.4, 1.05, f"{PRACTICE}: longerons frame most of the fuselage's depth")
FUEL_DENSITY = Usual(None, 900.0, f"{PRACTICE}: gasoline weighs 720 to 780 kg/m³, and a box is larger than its tank")
PILOT = Usual(50.0, 130.0, f"{PRACTICE}, with parachute and clothes", "mass_kg")
WHEELS_APART = Usual(-0.75 * INCH_M, 0.75 * INCH_M, f"{PRACTICE}: two wheels of one axle", "station_m")
TRACK_SHARE = Usual(0.12, 0.35, f"{PRACTICE}: narrower tips over, wider bends the axle")
WHEEL_ANGLE = Usual(
    radians(16.0), radians(25.0), "Raymer, Aircraft Design, landing gear, tail wheel (from memory)", "angle_rad"
)
PAST_THE_ENDS_M = 0.5
"""How far an item may stand out past propeller and tail: a spinner, a lamp. [m]"""
