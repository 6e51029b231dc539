"""One powerplant on one field, or as many airplanes as are drawn: its runs, swing, wind held, glide and stance."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from sim.atmosphere import GRAVITY_M_S2, air
from sim.errors import NoAnswerError
from sim.flight.crosswind import Swing, swing
from sim.flight.many_airplanes import Draws
from sim.flight.motion import Controls
from sim.flight.on_wheels import Field as Ground
from sim.flight.on_wheels import Gear, OnWheels
from sim.flight.speeds import LIFT_OFF
from sim.flight.take_off import STAND_M_S, Run, accelerated, joined, over_obstacle_m, raised, tail_up_m_s
from sim.propulsion.thrust import full_spin_rad_s, thrust_n
from sim.studies.bands import DRAWS
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.flight.on_wheels import Rolling
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.model.plausibility.supports import Stance
    from sim.numerics.number import Number

    Array = NDArray[np.float64]

Surface = Literal["concrete", "short grass", "long grass", "soft ground"]
FRICTION: dict[Surface, float] = {"concrete": 0.03, "short grass": 0.05, "long grass": 0.10, "soft ground": 0.20}
"""Rolling friction over load: common values of textbooks, from memory."""
SKID_FRICTION = 0.35
"""Of a tail skid on grass over its load: common practice, no source."""
FRICTION_ERROR = 0.3
"""Standard deviation of both over themselves: textbooks differ by about that (from memory)."""
BRAKED_FRICTION = 0.3
"""Of braked main wheels over their load: textbooks' usual value of a landing run, from memory."""
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
CURE = "take firmer ground, reduce the weight or give more power"
"""What brings to its end a take-off run that ends before lift-off."""
GLIDE_SPEEDS = 200
FASTEST_GLIDE = 3.0
"""Of the search for the flattest glide, over the stalling speed."""


@dataclass(frozen=True, slots=True)
class TakeOff:
    """A take-off run of each airplane.

    Attributes
    ----------
    run : Run
    tail_up_m_s : array
        Airspeed at which the tail is raised; not-a-number where that is not before lift-off. [m/s]
    """

    run: Run
    tail_up_m_s: Array


class FieldPlace:
    """One powerplant on one field: of one airplane, or with `seed` of `DRAWS` of them, every number an array."""

    def __init__(
        self,
        model: Model,
        flying: FlyingAirplane,
        stands: Stance,
        *,
        surface: Surface,
        headwind_m_s: float,
        seed: int | None = None,
    ) -> None:
        name, whole = flying.name, model.mass_state(flying.name).whole()
        many = 1 if seed is None else DRAWS
        draws = Draws(DRAWS, seed or 0)
        rough: Number = np.ones(1)
        skid: Number = np.ones(1)
        aft_m: Number = np.zeros(1)
        if seed is not None:
            rough = np.maximum(1.0 + FRICTION_ERROR * draws.of("rolling friction"), 0.05)
            skid = np.maximum(1.0 + FRICTION_ERROR * draws.of("skid friction"), 0.05)
            aft_m = model.uncertainty(model.airplane(name)).cg_error_m * draws.of(f"{name} cg")
        self.flying, self.airplane, self.stands, self.count = flying, flying.airplane, stands, many
        self.gear = Gear(
            ahead_m=whole.cg_station_m + aft_m - stands.station_m,
            below_m=whole.cg_waterline_m - stands.waterline_m,
            tail_m=stands.third_station_m - whole.cg_station_m - aft_m,
            radius_m=stands.radius_m,
            tail_down_rad=stands.pitch_rad,
            track_m=stands.track_m,
        )
        self.headwind_m_s, self.density = headwind_m_s, air(flying.altitude_m).density_kg_m3
        self.usual_friction = FRICTION[surface]
        self.ground = Ground(
            friction=FRICTION[surface] * rough,
            tail_friction=tail_friction(surface) * skid,
            altitude_m=flying.altitude_m,
            wing_above_m=self.gear.below_m + model.airframe.wing_height_m,
        )
        mass_kg = self.airplane.body.mass_kg
        self.mass_kg = mass_kg * np.ones(many)
        self.weight_n = GRAVITY_M_S2 * self.mass_kg
        self.stall_m_s: Array = self.airplane.polar.stall_m_s(self.weight_n, self.density)

    def wheels(self, throttle: Number, *, braked: bool = False) -> OnWheels:
        """Return what acts at a throttle, 0 for the ignition cut."""
        ground = self.ground
        if braked:
            friction = np.maximum(BRAKED_FRICTION * ground.friction / self.usual_friction, ground.friction)
            ground = replace(ground, friction=friction, braked=True)
        return OnWheels(self.airplane, self.gear, ground, lambda speed_m_s: self.spin(speed_m_s, throttle))

    def spin(self, speed_m_s: Array, throttle: Number) -> Array:
        """Return the speed of the shaft with its sign [rad/s]."""
        engine = self.airplane.engine
        turning: Array = full_spin_rad_s(
            engine,
            self.airplane.propeller,
            speed_m_s=speed_m_s,
            density_kg_m3=self.density,
            most_rad_s=self.flying.powerplant.full_speed_rad_s,
            throttle=throttle,
        )
        return engine.rotation * turning

    def take_off(self, raising_s: float) -> TakeOff:
        """Return the run to lift-off, and at which airspeed the tail comes up."""
        wheels, gear, level = self.wheels(1.0), self.gear, Controls(throttle=1.0)
        lift_off, start = self.lift_off_m_s, np.full(self.count, max(self.headwind_m_s, STAND_M_S))

        def rolling(speed_m_s: Array, pitch_rad: Number) -> Rolling:
            return wheels.rolling(speed_m_s, pitch_rad, level)

        up = tail_up_m_s(wheels, gear, self.flying.travel, lift_off)
        up = np.maximum(up, np.maximum(RAISED_FROM * lift_off, 1.01 * start))
        up = np.where(up < lift_off, up, np.nan)
        from_m_s = np.where(np.isnan(up), lift_off, up)
        first = self.run(lambda speed: rolling(speed, gear.tail_down_rad), start, from_m_s, gear.tail_down_rad)
        if np.isnan(up).all():
            return TakeOff(first, up)
        rising = raised(
            rolling,
            mass_kg=self.mass_kg,
            from_m_s=from_m_s,
            to_m_s=lift_off,
            headwind_m_s=self.headwind_m_s,
            gear=gear,
            raising_s=raising_s,
        )
        last = self.run(lambda speed: rolling(speed, 0.0), rising.speeds_m_s[-1], lift_off)
        return TakeOff(joined(first, rising, last), up)

    @property
    def lift_off_m_s(self) -> Array:
        """Airspeed of lift-off: 1.1 times the stall, more where the stance does not let the wing lift so much [m/s]."""
        return np.maximum(LIFT_OFF * self.stall_m_s, self.standing_m_s)

    @property
    def touchdown_m_s(self) -> Array:
        """Airspeed at which it touches down on all wheels [m/s]."""
        return np.maximum(TOUCHDOWN * self.stall_m_s, self.standing_m_s)

    @property
    def standing_m_s(self) -> Array:
        """Airspeed at which the wing carries the weight at the attitude on all wheels [m/s]."""
        polar, d = self.airplane.polar, self.airplane.derivatives
        lift = np.minimum(polar.lift_zero + d.lift_alpha * self.gear.tail_down_rad, polar.lift_max)
        found: Array = self.stall_m_s * np.sqrt(polar.lift_max / np.maximum(lift, LEAST_SHARE))
        return found

    @property
    def approach_m_s(self) -> Array:
        """Airspeed of the approach [m/s]."""
        return np.maximum(APPROACH * self.stall_m_s, self.touchdown_m_s)

    def run(self, rolling: Callable[[Array], Rolling], from_m_s: Array, to_m_s: Array, pitch_rad: float = 0.0) -> Run:
        """Return a run in one attitude."""
        return accelerated(
            rolling,
            mass_kg=self.mass_kg,
            from_m_s=from_m_s,
            to_m_s=to_m_s,
            headwind_m_s=self.headwind_m_s,
            pitch_rad=pitch_rad,
        )

    def gradient(self, speed_m_s: Array, throttle: Number) -> Array:
        """Return excess thrust over weight in flight, at airspeeds."""
        powerplant, polar = self.flying.powerplant, self.airplane.polar
        thrust = thrust_n(
            self.airplane.engine,
            self.airplane.propeller,
            self.density,
            powerplant.full_speed_rad_s,
            throttle=throttle,
        )
        excess: Array = thrust(speed_m_s) - polar.drag_n(self.weight_n, self.density, speed_m_s)
        return excess / self.weight_n

    def over_obstacle_m(self, ground_m: Array) -> Array:
        """Return the distance from standstill to 50 ft; not-a-number where full power does not climb."""
        ends = self.lift_off_m_s, np.maximum(CLIMB_OUT * self.stall_m_s, self.lift_off_m_s)
        gradients = self.gradient(ends[0], 1.0), self.gradient(ends[1], 1.0)
        climbs = np.minimum(*gradients) > 0.0
        return np.where(climbs, ground_m + self.flown_m(OBSTACLE_M, ends, gradients), np.nan)

    def descent_m(self) -> Array:
        """Return the distance from 50 ft to touchdown, the engine cut."""
        ends = self.approach_m_s, self.touchdown_m_s
        return self.flown_m(-OBSTACLE_M, ends, (self.gradient(ends[0], 0.0), self.gradient(ends[1], 0.0)))

    def flown_m(self, height_m: float, ends: tuple[Array, Array], gradients: tuple[Array, Array]) -> Array:
        """Return a distance over the ground in the air."""
        still: Array = over_obstacle_m(
            height_m=height_m, from_m_s=ends[0], to_m_s=ends[1], gradients=gradients, gravity_m_s2=GRAVITY_M_S2
        )
        return still * (1.0 - 2.0 * self.headwind_m_s / (ends[0] + ends[1]))

    def glide(self) -> tuple[Array, Array]:
        """Return airspeed and ratio of the flattest glide with the ignition cut."""
        speeds = np.linspace(self.stall_m_s, FASTEST_GLIDE * self.stall_m_s, GLIDE_SPEEDS)
        sinking = -self.gradient(speeds, 0.0)
        best = np.argmin(sinking, axis=0)[None]
        fastest, least = (np.take_along_axis(values, best, axis=0)[0] for values in (speeds, sinking))
        return fastest, 1.0 / least

    def glide_drag(self) -> dict[str, Any]:
        """Return what the propeller does in the flattest glide of the one airplane, by the fields of `FieldOf`."""
        speed, ratio = self.glide()
        airframe = self.airplane.polar.drag_n(self.weight_n, self.density, speed)
        return {
            "glide_spin_rad_s": abs(float(self.spin(speed, 0.0)[0])),
            "glide_drag_n": float((self.weight_n / ratio - airframe)[0]),
            "bare_glide_ratio": float(self.airplane.polar.lift_drag_max),
        }

    def overturn_deg(self) -> float:
        """Return the slope from the line through a main wheel and the tail up to the centre of gravity [degrees]."""
        gear, half_m = self.gear, 0.5 * self.stands.track_m
        base_m, tail_m = self.stands.third_station_m - self.stands.station_m, float(np.ravel(gear.tail_m)[0])
        aside_m = half_m * tail_m / math.hypot(base_m, half_m)
        return math.degrees(math.atan2(gear.below_m, aside_m))


def raising_swing(place: FieldPlace, off: TakeOff, raising_s: float) -> Swing:
    """Return the rudder that holds the nose as the tail comes up at an even rate; not-a-number where it does not."""
    return swing(place.wheels(1.0), place.gear, place.flying.travel, off.tail_up_m_s, raising_s=raising_s)


def tail_friction(surface: Surface) -> float:
    """Return the friction of the tail, taken for a skid, over its load."""
    return max(SKID_FRICTION, FRICTION[surface])


def demand_run(run: Run, name: str) -> None:
    """Raise an error where the one airplane of a take-off run does not get to its end with the powerplant named.

    Raises
    ------
    NoAnswerError
        Naming the airspeed at which it gets no faster.
    """
    stuck_m_s = float(run.stuck_m_s[0])
    if math.isnan(stuck_m_s):
        return
    if stuck_m_s <= STAND_M_S:
        message = f"full power of {name} does not start the airplane rolling on this ground; {CURE}"
    else:
        reached = in_both("speed_m_s", stuck_m_s)
        message = f"with full power of {name} the airplane does not get faster than {reached} on this ground; {CURE}"
    raise NoAnswerError(message)
