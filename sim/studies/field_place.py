"""One powerplant on one field: its runs, swing, glide and stance."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.motion import Controls
from sim.flight.on_wheels import Field as Ground
from sim.flight.on_wheels import Gear, OnWheels
from sim.flight.speeds import LIFT_OFF
from sim.flight.take_off import STAND_M_S, Run, Swing, accelerated, over_obstacle_m, raised, swing, tail_up_m_s
from sim.propulsion.thrust import full_spin_rad_s, thrust_n
from sim.studies.field_of import FieldOf

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.on_wheels import Rolling
    from sim.model.model import Model
    from sim.model.plausibility.supports import Stance
    from sim.numerics.number import Number

Surface = Literal["concrete", "short grass", "long grass", "soft ground"]
FRICTION: dict[Surface, float] = {"concrete": 0.03, "short grass": 0.05, "long grass": 0.10, "soft ground": 0.20}
"""Rolling friction over load: common values of textbooks, from memory."""
SKID_FRICTION = 0.35
"""Of a tail skid on grass over its load: common practice, no source."""
OBSTACLE_M = 15.24
"""Height of the obstacle of take-off and landing distances, 50 ft."""
CLIMB_OUT, APPROACH, TOUCHDOWN = 1.2, 1.3, 1.05
"""Airspeeds over the stalling speed: over the obstacle, on the approach, where a three-point landing touches.
Common practice, no source for such airplanes."""
RAISED_FROM = 0.5
"""Airspeed over that of lift-off from which the tail is raised where the elevator could lift it sooner: common
practice, no source; full power lifts the tail of a light airplane almost at rest."""
LEAST_SHARE = 1e-6
"""Below it two speeds are one, and a wing does not lift."""
GLIDE_SPEEDS = 200
FASTEST_GLIDE = 3.0
"""Of the search for the flattest glide, over the stalling speed."""


class FieldPlace:
    """One powerplant on one field."""

    def __init__(
        self,
        model: Model,
        name: str,
        stands: Stance,
        *,
        surface: Surface,
        headwind_m_s: float,
        altitude_m: float,
    ) -> None:
        whole = model.mass_state(name).whole()
        self.flying = model.airplane(name, altitude_m=altitude_m)
        self.airplane, self.stands = self.flying.airplane, stands
        self.gear = Gear(
            ahead_m=whole.cg_station_m - stands.station_m,
            below_m=whole.cg_waterline_m - stands.waterline_m,
            tail_m=stands.third_station_m - whole.cg_station_m,
            radius_m=stands.radius_m,
            tail_down_rad=stands.pitch_rad,
        )
        self.friction = FRICTION[surface], max(SKID_FRICTION, FRICTION[surface])
        self.headwind_m_s, self.density = headwind_m_s, air(altitude_m).density_kg_m3
        self.ground = Ground(
            friction=self.friction[0],
            tail_friction=self.friction[1],
            altitude_m=altitude_m,
            wing_above_m=self.gear.below_m + model.airframe.wing_height_m,
        )
        self.clearance = model.propeller_clearance(name)
        self.weight_n = self.airplane.body.mass_kg * GRAVITY_M_S2
        self.stall_m_s = self.airplane.polar.stall_m_s(self.weight_n, self.density)

    def answer(self, raising_s: float) -> FieldOf:
        """Return everything about it."""
        run, swung, tail_up = self.take_off(raising_s)
        gliding, ratio = self.glide()
        landing = self.landing()
        polar, d = self.airplane.polar, self.airplane.derivatives
        clear = self.clearance
        return FieldOf(
            lift_off_m_s=self.lift_off_m_s,
            touchdown_m_s=self.touchdown_m_s,
            ground_run_m=run.distance_m,
            take_off_time_s=run.time_s,
            to_50_ft_m=self.over_obstacle_m(run.distance_m),
            tail_up_m_s=tail_up,
            rudder_share=swung.rudder_share if swung else None,
            raising_share=swung.raising_share if swung else None,
            glide_ratio=ratio,
            glide_m_s=gliding,
            from_50_ft_m=landing.distance_m + self.approach_m(),
            landing_run_m=landing.distance_m,
            tail_down_deg=math.degrees(self.gear.tail_down_rad),
            stall_alpha_deg=math.degrees((polar.lift_max - polar.lift_zero) / d.lift_alpha),
            nose_over_deg=math.degrees(math.atan2(self.gear.ahead_m, self.gear.below_m)),
            overturn_deg=self.overturn_deg(),
            propeller_clearance_m=clear.level_clearance_m if clear else None,
            propeller_clearance_tail_down_m=clear.standing_clearance_m if clear else None,
            curve_speeds_m_s=run.speeds_m_s,
            curve_distances_m=run.distances_m,
        )

    def wheels(self, throttle: float) -> OnWheels:
        """Return what acts, the engine at full throttle or cut."""
        return OnWheels(self.airplane, self.gear, self.ground, lambda speed_m_s: self.spin(speed_m_s, throttle))

    def spin(self, speed_m_s: float, throttle: float) -> float:
        """Return the speed of the shaft with its sign [rad/s]."""
        engine = self.airplane.engine
        turning = full_spin_rad_s(
            engine,
            self.airplane.propeller,
            speed_m_s=speed_m_s,
            density_kg_m3=self.density,
            most_rad_s=self.flying.powerplant.full_speed_rad_s,
            throttle=throttle,
        )
        return float(engine.rotation * turning)

    def take_off(self, raising_s: float) -> tuple[Run, Swing | None, float | None]:
        """Return the run to lift-off, the swing where the tail comes up, and at which airspeed it does."""
        wheels, travel, gear = self.wheels(1.0), self.flying.travel, self.gear
        lift_off, start, level = self.lift_off_m_s, max(self.headwind_m_s, STAND_M_S), Controls(throttle=1.0)

        def rolling(speed_m_s: float, pitch_rad: float) -> Rolling:
            return wheels.rolling(speed_m_s, pitch_rad, level)

        up = tail_up_m_s(wheels, gear, travel, lift_off)
        up = None if up is None else max(up, RAISED_FROM * lift_off, 1.01 * start)
        if up is None or up >= lift_off:
            return self.run(lambda speed: rolling(speed, gear.tail_down_rad), start, lift_off), None, None
        first = self.run(lambda speed: rolling(speed, gear.tail_down_rad), start, up)
        rising = raised(
            rolling,
            self.friction,
            mass_kg=self.airplane.body.mass_kg,
            from_m_s=up,
            to_m_s=lift_off,
            headwind_m_s=self.headwind_m_s,
            gear=gear,
            raising_s=raising_s,
        )
        parts = [first, rising]
        if rising.speeds_m_s[-1] < lift_off * (1.0 - LEAST_SHARE):
            parts.append(self.run(lambda speed: rolling(speed, 0.0), rising.speeds_m_s[-1], lift_off))
        return _joined(*parts), swing(wheels, gear, travel, up, raising_s=raising_s), up

    @property
    def lift_off_m_s(self) -> float:
        """Airspeed of lift-off: 1.1 times the stall, more where the stance does not let the wing lift so much [m/s]."""
        return float(max(LIFT_OFF * self.stall_m_s, self.standing_m_s))

    @property
    def touchdown_m_s(self) -> float:
        """Airspeed at which it touches down on all wheels [m/s]."""
        return float(max(TOUCHDOWN * self.stall_m_s, self.standing_m_s))

    @property
    def standing_m_s(self) -> float:
        """Airspeed at which the wing carries the weight at the attitude on all wheels [m/s]."""
        polar, d = self.airplane.polar, self.airplane.derivatives
        lift = polar.lift_zero + d.lift_alpha * self.gear.tail_down_rad
        return float(self.stall_m_s * math.sqrt(polar.lift_max / max(min(lift, polar.lift_max), LEAST_SHARE)))

    def run(self, rolling: Callable[[float], Rolling], from_m_s: float, to_m_s: float) -> Run:
        """Return a run in one attitude."""
        return accelerated(
            rolling,
            self.friction,
            mass_kg=self.airplane.body.mass_kg,
            from_m_s=from_m_s,
            to_m_s=to_m_s,
            headwind_m_s=self.headwind_m_s,
        )

    def gradient(self, speed_m_s: Number, throttle: float) -> Number:
        """Return excess thrust over weight in flight, at an airspeed or at many."""
        powerplant, polar = self.flying.powerplant, self.airplane.polar
        engine, propeller = powerplant.engine_law, powerplant.propeller_law
        thrust = thrust_n(engine, propeller, self.density, powerplant.full_speed_rad_s, throttle=throttle)
        return (thrust(speed_m_s) - polar.drag_n(self.weight_n, self.density, speed_m_s)) / self.weight_n

    def over_obstacle_m(self, ground_m: float) -> float | None:
        """Return the distance from standstill to 50 ft; None where full power does not climb."""
        ends = self.lift_off_m_s, max(CLIMB_OUT * self.stall_m_s, self.lift_off_m_s)
        gradients = self.gradient(ends[0], 1.0), self.gradient(ends[1], 1.0)
        if min(gradients) <= 0.0:
            return None
        return ground_m + self.flown_m(OBSTACLE_M, ends, gradients)

    def approach_m(self) -> float:
        """Return the distance from 50 ft to touchdown, the engine cut."""
        ends = max(APPROACH * self.stall_m_s, self.touchdown_m_s), self.touchdown_m_s
        return self.flown_m(-OBSTACLE_M, ends, (self.gradient(ends[0], 0.0), self.gradient(ends[1], 0.0)))

    def flown_m(self, height_m: float, ends: tuple[float, float], gradients: tuple[float, float]) -> float:
        """Return a distance over the ground in the air."""
        still = over_obstacle_m(
            height_m=height_m, from_m_s=ends[0], to_m_s=ends[1], gradients=gradients, gravity_m_s2=GRAVITY_M_S2
        )
        return still * (1.0 - 2.0 * self.headwind_m_s / sum(ends))

    def glide(self) -> tuple[float, float]:
        """Return airspeed and ratio of the flattest glide with the ignition cut."""
        speeds = np.linspace(self.stall_m_s, FASTEST_GLIDE * self.stall_m_s, GLIDE_SPEEDS)
        sinking = -self.gradient(speeds, 0.0)
        best = int(np.argmin(sinking))
        return float(speeds[best]), float(1.0 / sinking[best])

    def landing(self) -> Run:
        """Return the run from touchdown to standstill, on all wheels, ignition cut."""
        wheels, up = self.wheels(0.0), Controls(elevator_rad=-self.flying.travel.elevator_up_rad)
        end_m_s = max(self.headwind_m_s, STAND_M_S)
        touch_m_s = max(self.touchdown_m_s, end_m_s)
        return self.run(lambda speed: wheels.rolling(speed, self.gear.tail_down_rad, up), touch_m_s, end_m_s)

    def overturn_deg(self) -> float:
        """Return the slope from the line through a main wheel and the tail up to the centre of gravity [degrees]."""
        gear, half_m = self.gear, 0.5 * self.stands.track_m
        base_m = gear.ahead_m + gear.tail_m
        aside_m = half_m * gear.tail_m / math.hypot(base_m, half_m)
        return math.degrees(math.atan2(gear.below_m, aside_m))


def _joined(*parts: Run) -> Run:
    """Return runs one after the other."""
    speeds, distances, at_m = list[float](), list[float](), 0.0
    for part in parts:
        speeds += part.speeds_m_s
        distances += [at_m + distance for distance in part.distances_m]
        at_m += part.distance_m
    return Run(at_m, sum(part.time_s for part in parts), tuple(speeds), tuple(distances))
