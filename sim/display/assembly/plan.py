"""Where everything stands along the shaft, and how large: each layer from the one before it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.display.assembly.solid import whole_mm
from sim.display.assembly.stock import stock
from sim.display.parts import cam_radius, contact_direction

if TYPE_CHECKING:
    from sim.display.assembly.stock import Bearing, Stock, Thread
    from sim.display.display import Display
    from sim.display.search import FoundCam
    from sim.display.spring import Spring

    Span = tuple[float, float]

RUNNING_M = 0.0005
"""Thickness of the thrust washer on which the lead plate turns. [m]"""
AXIAL_M = 0.001
"""Least gap between what turns and what stands, along the shaft. [m]"""
SEAT_BUSH_M = 0.008
"""Outside diameter of the bush on which the slot of the lead plate stops. [m]"""
SPRING_WASHER_M = 0.0012
"""Height of the waved washer that gives the lead plate its friction, as compressed. [m]"""
SEAT_RIM_M = 0.001
"""Least width of what closes the slot of the spring's seat. [m]"""
SLACK_M = 0.0002
"""Play of the follower and of the lead plate along the shaft. [m]"""
BRAKE_DISC_M = 0.004
"""Thickness of the disc of the drag brake. [m]"""
BRAKE_SIDE_M = 0.0105
"""Gap, magnet and steel on either side of it. [m]"""
BARRIER_M = 0.006
"""Half the height of the light barrier, whose beam is in its middle. [m]"""


@dataclass(frozen=True, slots=True)
class Plan:
    """The display laid out; every place below is in the axes of the assembly.

    Attributes
    ----------
    display, found, spring
        What is specified, the cam and the spring.
    """

    display: Display
    found: FoundCam
    spring: Spring

    @property
    def stock(self) -> Stock:
        """The standard parts it is built of."""
        return stock(self.display.hardware)

    @property
    def shaft(self) -> Bearing:
        """The bearing of every shaft."""
        return self.stock.bearing(2.0 * self.display.cam.shaft_radius_m)

    @property
    def roller(self) -> Bearing:
        """The bearing that rolls on the cam."""
        return self.stock.roller(2.0 * self.display.follower.roller_radius_m)

    @property
    def pin(self) -> Thread:
        """The screw on which the roller turns."""
        return self.stock.pin(self.roller)

    @property
    def slides(self) -> bool:
        """Whether the follower is a slide, not an arm."""
        return self.display.follower.kind == "translating"

    @property
    def swing_rad(self) -> float:
        """Swing of the lead plate. [rad]."""
        return self.display.window.lead_rad * self.display.cam_ratio

    @property
    def tilt_rad(self) -> float:
        """Turn of cam and lead plate that brings the follower upright in the middle of its swing. [rad]."""
        upright = math.pi / 2.0 if self.slides else contact_direction(self.display, self.found)
        return math.pi / 2.0 - upright + self.swing_rad / 2.0

    @property
    def direct(self) -> bool:
        """Whether the cam sits on the propeller's shaft."""
        return math.isclose(self.display.cam_ratio, 1.0)

    def stretched(self, deepest_m: float, plate_m: float, thread: Thread) -> float:
        """Return by how much a screw's way must grow, that one of standard length ends a diameter deep in a plate. [m].

        Parameters
        ----------
        deepest_m, plate_m : float
            From below its head to where it may end at most, and thickness of the plate that is tapped. [m]
        thread : Thread
            Its size.
        """
        longest = self.stock.length(deepest_m - plate_m + SLACK_M + thread.diameter_m)
        return max(0.0, longest - deepest_m)

    # ---- layers in front of the base -----------------------------------------------------------------------------

    @property
    def base_z(self) -> Span:
        """The base. [m]."""
        return -self.stock.plate(self.shaft.width_m), 0.0

    @property
    def lead_z(self) -> Span:
        """The lead plate. [m]."""
        return RUNNING_M, RUNNING_M + self.stock.plate(0.006)

    @property
    def cap_m(self) -> float:
        """Outside diameter of the cap that holds the bearing, on which the lead plate turns. [m]."""
        return whole_mm(self.shaft.outer_m + 0.0144)

    @property
    def keeper_z(self) -> Span:
        """The ring that keeps the lead plate. [m]."""
        start = self.lead_z[1] + SLACK_M
        return start, start + 0.0025

    @property
    def bar_z(self) -> Span:
        """The slide or the arm, high enough that the spring's seat clears the lead plate. [m].

        Its guide screws are of standard length: they end in the lead plate, a diameter deep and not through it.
        """
        thick, guide = self.stock.plate(self.pin.diameter_m), self.stock.threads["medium"]
        start = self.lead_z[1] + max(0.0045, (self.seat_m - thick) / 2.0 + 0.0005)
        below = start + thick + SLACK_M + guide.large.height_m
        longest = below - self.stock.length(below - self.lead_z[1] + guide.diameter_m)
        start += max(0.0, self.lead_z[0] + 0.0002 - longest)
        return start, start + thick

    @property
    def seat_m(self) -> float:
        """Side of the spring's seat, which closes its slot in front of and behind the follower. [m]."""
        return max(self.spring.outer_m + 0.001, self.stock.plate(self.pin.diameter_m) + SLACK_M + 2.0 * SEAT_RIM_M)

    @property
    def contact_z(self) -> float:
        """Middle of cam and roller. [m]."""
        return self.bar_z[1] + AXIAL_M + max(self.roller.width_m, self.display.cam.face_width_m) / 2.0

    @property
    def cam_z(self) -> Span:
        """The cam. [m]."""
        half = self.display.cam.face_width_m / 2.0
        return self.contact_z - half, self.contact_z + half

    @property
    def roller_z(self) -> Span:
        """The roller. [m]."""
        half = self.roller.width_m / 2.0
        return self.contact_z - half, self.contact_z + half

    @property
    def cam_pitch_m(self) -> float:
        """Radius on which the screws of the cam stand. [m]."""
        small = self.stock.threads["small"]
        return self.shaft.bore_m / 2.0 + small.heads_m["socket"][0] / 2.0 + 0.002

    @property
    def flange_m(self) -> float:
        """Diameter of the flange of the cam's hub. [m]."""
        return 2.0 * (self.cam_pitch_m + self.stock.threads["small"].diameter_m / 2.0 + 0.002)

    @property
    def flag_z(self) -> Span:
        """The flag on the follower. [m]."""
        return self.bar_z[1], self.bar_z[1] + 0.001

    @property
    def top_z(self) -> float:
        """The foremost point below the cover. [m]."""
        small, large = self.stock.threads["small"], self.stock.threads["large"]
        tops = (
            self.roller_z[1] + 0.0005 + self.pin.heads_m["socket"][1],
            self.cam_z[1] + small.heads_m["socket"][1],
            self.flag_z[0] + 0.0005 + BARRIER_M,
            self.lead_z[1] + SPRING_WASHER_M + large.large.height_m + large.heads_m["socket"][1],
            (self.bar_z[0] + self.bar_z[1] + self.seat_m) / 2.0 + 0.0015 + small.heads_m["socket"][1] + 0.001,
        )
        return max(tops)

    @property
    def frame_z(self) -> Span:
        """The frame of the cover. [m]."""
        high, medium = whole_mm(self.top_z + 0.003), self.stock.threads["medium"]
        deepest = medium.washer.height_m + self.stock.plate(0.004) + high - self.base_z[0] - SLACK_M
        return 0.0, high + self.stretched(deepest, -self.base_z[0], medium)

    @property
    def cover_z(self) -> Span:
        """The cover. [m]."""
        return self.frame_z[1], self.frame_z[1] + self.stock.plate(0.004)

    # ---- layers behind the base ----------------------------------------------------------------------------------

    @property
    def mast_z(self) -> Span:
        """The mast. [m]."""
        return self.base_z[0] - 2.0 * self.stock.board(0.018), self.base_z[0]

    @property
    def panel_z(self) -> Span:
        """The clear front panel of the guard. [m]."""
        return self.mast_z[0] - self.stock.plate(0.005), self.mast_z[0]

    @property
    def rear_z(self) -> Span:
        """The rear plate with the second bearing of each shaft. [m]."""
        return self.panel_z[0] - self.stock.plate(self.shaft.width_m), self.panel_z[0]

    @property
    def belt_z(self) -> Span:
        """Pulleys from the crank to the propeller. [m]."""
        end = self.rear_z[0] - 0.002
        return end - self.stock.belts.width_m - self.stock.belts.flange_m, end

    @property
    def cam_belt_z(self) -> Span:
        """Pulleys from the propeller to the cam, where they are apart. [m]."""
        end = self.belt_z[0] - self.stock.belts.boss_m - 0.002
        return end - self.stock.belts.width_m - self.stock.belts.flange_m, end

    @property
    def disc_z(self) -> Span:
        """The disc of the drag brake, where a screw of standard length ends in the rear plate, a diameter deep. [m]."""
        front, large = self.belt_z[0] - 0.012, self.stock.threads["large"]
        deepest = self.rear_z[1] - SLACK_M - (front - BRAKE_DISC_M - BRAKE_SIDE_M) + large.washer.height_m
        front -= self.stretched(deepest, self.rear_z[1] - self.rear_z[0], large)
        return front - BRAKE_DISC_M, front

    @property
    def propeller_z(self) -> Span:
        """The propeller, behind every pulley and as far from the guard as the scenario says. [m]."""
        last = (self.belt_z if self.direct else self.cam_belt_z)[0] - self.stock.belts.boss_m
        front = min(last - 0.012, self.panel_z[0] - self.display.enclosure.distance_m, self.disc_z[0] - 0.020)
        return front - self.stock.board(0.012), front

    @property
    def backboard_z(self) -> Span:
        """The backboard, a finger's gap and the gun outline behind the propeller. [m]."""
        front = self.propeller_z[0] - 0.012 - self.display.enclosure.blade_gap_m - self.stock.board(0.015)
        return front - self.stock.board(0.012), front

    # ---- places across -------------------------------------------------------------------------------------------

    @property
    def cam_radius_m(self) -> float:
        """Radius that the cam sweeps. [m]."""
        return cam_radius(self.display, self.found)

    @property
    def ring_m(self) -> float:
        """Radius of the friction slot of the lead plate, clear of cam and cap. [m]."""
        clear = self.stock.threads["large"].large.outer_m / 2.0 + 0.002
        return max(self.cap_m / 2.0 + clear + 0.004, self.cam_radius_m + clear)

    @property
    def post_m(self) -> float:
        """Radius of the lever's post. [m]."""
        return self.ring_m + SEAT_BUSH_M / 2.0 + 0.014
