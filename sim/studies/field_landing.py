"""Landing run of one powerplant on one field: engine cut, braked, and kept running."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.crosswind import rudder_share
from sim.flight.landing_run import Blip, blipped_cycle, blipped_run_m
from sim.flight.motion import Controls
from sim.flight.take_off import STAND_M_S
from sim.propulsion.engine_propeller import steady_throttle
from sim.propulsion.thrust import thrust_n

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.take_off import Run
    from sim.studies.field_place import FieldPlace

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Landing:
    """Landing runs of each airplane; not-a-number where it does not come to a stop, or has no ignition to cut so.

    Attributes
    ----------
    run_m, braked_m : array
        Engine cut, without brakes and with them. [m]
    running_m, running_thrust_n : array
        Engine kept running, without brakes, and what it pulls then at touchdown, in the mean. [m, N]
    blip_share, blip_end_share : array
        Rudder of its travel, left positive, that holds the nose as the ignition comes on, and at the end of its time,
        less that with the ignition off.
    """

    run_m: Array
    braked_m: Array
    running_m: Array
    running_thrust_n: Array
    blip_share: Array
    blip_end_share: Array


def landing(place: FieldPlace, blip: Blip) -> Landing:
    """Return the landing runs: a rotary is kept running by its ignition, another engine at idle throttle."""
    cut, braked = (run_at(place, 0.0, braked=brakes) for brakes in (False, True))
    touch = place.touchdown_m_s
    if place.flying.powerplant.kind == "rotary":
        running, thrust, *shares = _blipped(place, blip)
    else:
        idle = idle_throttle(place)
        running = run_at(place, idle).distance_m
        engine, propeller = place.airplane.engine, place.airplane.propeller
        most = place.flying.powerplant.full_speed_rad_s
        thrust = thrust_n(engine, propeller, place.density, most, throttle=idle)(touch)
        shares = 2 * [np.full_like(touch, np.nan)]
    return Landing(cut.distance_m, braked.distance_m, running, thrust, *shares)


def idle_throttle(place: FieldPlace) -> Array:
    """Return the throttle that holds idle speed at rest."""
    engine = place.airplane.engine
    found: Array = steady_throttle(
        engine,
        place.airplane.propeller,
        spin_rad_s=engine.rotation * place.flying.powerplant.idle_speed_rad_s,
        airspeed_m_s=0.0,
        density_kg_m3=place.density,
    )
    return found


def run_at(place: FieldPlace, throttle: Array | float, *, braked: bool = False) -> Run:
    """Return the run from touchdown to standstill, on all wheels, the stick back."""
    wheels, down = place.wheels(throttle, braked=braked), place.gear.tail_down_rad
    back = Controls(elevator_rad=-place.flying.travel.elevator_up_rad, throttle=throttle)
    end = np.full(place.count, max(place.headwind_m_s, STAND_M_S))
    return place.run(
        lambda speed: wheels.rolling(speed, down, back), np.maximum(place.touchdown_m_s, end), end, pitch_rad=down
    )


def _blipped(place: FieldPlace, blip: Blip) -> tuple[Array, Array, Array, Array]:
    """Return run, mean thrust and both changes of rudder of a rotary whose ignition is cut and restored."""
    travel, down, wheels = place.flying.travel, place.gear.tail_down_rad, place.wheels(0.0)
    touch, along = place.touchdown_m_s, place.touchdown_m_s * np.cos(down)
    cycle = blipped_cycle(
        place.airplane, blip, speed_m_s=along, spin_rad_s=place.spin(along, 0.0), density_kg_m3=place.density
    )
    run_m = blipped_run_m(
        wheels,
        travel,
        blip,
        mass_kg=place.mass_kg,
        pitch_rad=down,
        from_m_s=touch,
        spin_rad_s=cycle.on_rad_s,
        headwind_m_s=place.headwind_m_s,
    )
    off_share, once_share, end_share = (
        rudder_share(
            wheels,
            travel,
            Controls(elevator_rad=-travel.elevator_up_rad, throttle=throttle),
            speed_m_s=touch,
            pitch_rad=down,
            spin_rad_s=spin,
        )
        for throttle, spin in ((0.0, cycle.off_rad_s), (1.0, cycle.off_rad_s), (1.0, cycle.on_rad_s))
    )
    return run_m, cycle.thrust_n, once_share - off_share, end_share - off_share
