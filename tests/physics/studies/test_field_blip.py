"""Rudder that a rotary's ignition takes on the landing run: by its torque about a tilted shaft, and its mirror."""

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.flight.crosswind import rudder_share
from sim.flight.landing_run import Blip, blipped_cycle
from sim.flight.motion import Controls
from sim.propulsion.engine_propeller import shaft_loads
from sim.propulsion.thrust import at_throttle
from sim.studies.field_place import FieldPlace

FRICTION = 0.05
"""Of the wheels on short grass, the field of these answers."""


class Touching:
    """A rotary that touches down, and its shaft at both ends of the time with the ignition on."""

    def __init__(self, path):
        self.model, self.flying = built(path), built(path).airplane("rotary")
        self.place = FieldPlace(self.model, self.flying, self.model.stance(), surface="short grass", headwind_m_s=0.0)
        self.wheels, self.pitch = self.place.wheels(0.0), self.place.gear.tail_down_rad
        self.touch = self.place.touchdown_m_s
        self.along = self.touch * np.cos(self.pitch)
        self.cycle = blipped_cycle(
            self.flying.airplane,
            Blip(0.5, 3.0),
            speed_m_s=self.along,
            spin_rad_s=self.place.spin(self.along, 0.0),
            density_kg_m3=self.place.density,
        )

    def rolling(self, throttle, rudder_rad=0.0):
        """Return what acts as the ignition is on or off, at the slowest shaft."""
        controls = Controls(-self.flying.travel.elevator_up_rad, 0.0, rudder_rad, throttle)
        return self.wheels.rolling(self.touch, self.pitch, controls, spin_rad_s=self.cycle.off_rad_s)

    def share(self, throttle, pitch_rad, spin_rad_s):
        found = rudder_share(
            self.wheels,
            self.flying.travel,
            Controls(elevator_rad=-self.flying.travel.elevator_up_rad, throttle=throttle),
            speed_m_s=self.touch,
            pitch_rad=pitch_rad,
            spin_rad_s=spin_rad_s,
        )
        return float(found[0])


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, TWO_SEATER])
def test_at_once_it_is_the_torque_about_the_tilted_shaft(path):
    """Its sine yaws the airplane; its cosine loads one wheel, as far as that is loaded, which then drags more."""
    now = Touching(path)
    airplane = now.flying.airplane
    shaft = now.cycle.off_rad_s[0], now.along[0]
    loads = [shaft_loads(airplane.engine, airplane.propeller)(shaft, now.place.density, at_throttle(x)) for x in (0, 1)]
    torque, tilt = loads[1].engine - loads[0].engine, now.pitch + airplane.shaft_tilt_rad
    cut, on, turned = now.rolling(0.0), now.rolling(1.0), now.rolling(0.0, now.flying.travel.rudder_rad)
    leans = [np.clip(one.tilt_n_m[0], -one.held_n_m[0], one.held_n_m[0]) for one in (cut, on)]
    yaws = torque * np.sin(tilt) + FRICTION * (leans[1] - leans[0])
    full = float((cut.swing_n_m - turned.swing_n_m)[0])
    assert on.tilt_n_m[0] - cut.tilt_n_m[0] == pytest.approx(-torque * np.cos(tilt), rel=0.01)
    own = answer("field", path).powerplants["rotary"]
    assert own.blip_share == pytest.approx(yaws / full, rel=0.02)
    assert own.blip_share * airplane.engine.rotation > 0.0  # clockwise: the nose goes right, left rudder


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, TWO_SEATER])
def test_it_turns_round_where_the_shaft_lies_level_and_the_slipstream_takes_it_back(path):
    now, own = Touching(path), answer("field", path).powerplants["rotary"]
    rotation = now.flying.airplane.engine.rotation
    level = now.share(1.0, 0.0, now.cycle.off_rad_s) - now.share(0.0, 0.0, now.cycle.off_rad_s)
    assert level * rotation < 0.0 < own.blip_share * rotation
    down = now.share(1.0, now.pitch, now.cycle.on_rad_s) - now.share(0.0, now.pitch, now.cycle.off_rad_s)
    assert own.blip_end_share == pytest.approx(down, rel=1e-9)
    assert own.blip_end_share * rotation < own.blip_share * rotation
