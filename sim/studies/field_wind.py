"""Wind across take-off run, approach and landing of one powerplant that rudder and ailerons hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from sim.flight.crosswind import held
from sim.flight.sideslip import most_sideslip
from sim.flight.validity import bound
from sim.studies.bands import ends_of
from sim.units.convert import degrees

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.crosswind import Held
    from sim.studies.field_place import FieldPlace, TakeOff

    Array = NDArray[np.float64]

Control = Literal["rudder", "ailerons"]
EVERY = 4
"""Of the speeds of a run, at which the wind held is found: sixteen of each part."""
SIDES: dict[str, float] = {"left": -1.0, "right": 1.0}


@dataclass(frozen=True, slots=True)
class WindHeld:
    """Steady wind from one side that full controls hold.

    Attributes
    ----------
    side : str
        From which it comes.
    take_off_wind_m_s : float
        From where the tail comes up to lift-off, full throttle. [m/s]
    take_off_limit : str
        ``rudder`` or ``ailerons``: what does not hold more.
    runs_out_m_s : float
        Airspeed along the run at which it does not. [m/s]
    approach_wind_m_s, approach_sideslip_deg : float or None
        On the approach, engine cut, nose along the runway and wing low; and the sideslip, wind from the right positive;
        None where no sideslip balances. [m/s, degrees]
    approach_limit, touchdown_limit : str
        As of the take-off.
    approach_beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes.
    touchdown_wind_m_s : float
        At touchdown on all wheels, engine cut, the tail skid taken to hold nothing. [m/s]
    wind_speeds_m_s, rudder_winds_m_s, aileron_winds_m_s : tuple of float
        Airspeeds of the take-off run, and the wind that rudder and ailerons hold at each. [m/s]
    take_off_wind_low_m_s, take_off_wind_high_m_s, approach_wind_low_m_s, approach_wind_high_m_s,
    touchdown_wind_low_m_s, touchdown_wind_high_m_s : float or None
        Ends of the 90 % bands; None where no bands were asked for. [m/s]
    """

    side: str
    take_off_wind_m_s: float
    take_off_limit: Control
    runs_out_m_s: float
    approach_wind_m_s: float | None
    approach_limit: Control
    approach_sideslip_deg: float | None
    approach_beyond: tuple[str, ...]
    touchdown_wind_m_s: float
    touchdown_limit: Control
    wind_speeds_m_s: tuple[float, ...]
    rudder_winds_m_s: tuple[float, ...]
    aileron_winds_m_s: tuple[float, ...]
    take_off_wind_low_m_s: float | None = None
    take_off_wind_high_m_s: float | None = None
    approach_wind_low_m_s: float | None = None
    approach_wind_high_m_s: float | None = None
    touchdown_wind_low_m_s: float | None = None
    touchdown_wind_high_m_s: float | None = None


def winds_held(
    place: FieldPlace, off: TakeOff, raising_s: float, drawn: tuple[FieldPlace, TakeOff] | None = None
) -> tuple[WindHeld, ...]:
    """Return the wind held from the left and from the right, with its bands where airplanes are drawn."""
    return tuple(_held(place, off, raising_s, side=side, drawn=drawn) for side in SIDES)


def _held(
    place: FieldPlace, off: TakeOff, raising_s: float, *, side: str, drawn: tuple[FieldPlace, TakeOff] | None
) -> WindHeld:
    sign = SIDES[side]
    speeds, found = rolling_held(place, off, raising_s, sign)
    both = np.minimum(found.rudder_m_s, found.ailerons_m_s)[:, 0]
    least = int(np.argmin(both))
    approach, by_rudder = approach_held(place, sign)
    touch = touchdown_held(place, sign)
    slip = float(approach.sideslip_rad[0])
    sideslip = bound("sideslip")
    ends: dict[str, Any] = _ends(*drawn, raising_s, sign) if drawn else {}
    return WindHeld(
        side=side,
        take_off_wind_m_s=float(both[least]),
        take_off_limit="rudder" if found.rudder_m_s[least, 0] <= found.ailerons_m_s[least, 0] else "ailerons",
        runs_out_m_s=float(speeds[least, 0]),
        approach_wind_m_s=_known(float(approach.wind_m_s[0])),
        approach_limit="rudder" if by_rudder[0] else "ailerons",
        approach_sideslip_deg=_known(degrees(slip)),
        approach_beyond=() if sideslip.least <= slip <= sideslip.most else (sideslip.name,),
        touchdown_wind_m_s=float(_both(touch)[0, 0]),
        touchdown_limit="rudder" if touch.rudder_m_s[0, 0] <= touch.ailerons_m_s[0, 0] else "ailerons",
        wind_speeds_m_s=tuple(speeds[:, 0].tolist()),
        rudder_winds_m_s=tuple(found.rudder_m_s[:, 0].tolist()),
        aileron_winds_m_s=tuple(found.ailerons_m_s[:, 0].tolist()),
        **ends,
    )


def _known(value: float) -> float | None:
    return value if np.isfinite(value) else None


def _both(found: Held) -> Array:
    return np.minimum(found.rudder_m_s, found.ailerons_m_s)


def _ends(place: FieldPlace, off: TakeOff, raising_s: float, sign: float) -> dict[str, float | None]:
    """Return the ends of the bands of the wind that the airplanes drawn hold."""
    return ends_of(
        {
            "take_off_wind_m_s": _both(rolling_held(place, off, raising_s, sign)[1]).min(axis=0),
            "approach_wind_m_s": approach_held(place, sign)[0].wind_m_s,
            "touchdown_wind_m_s": _both(touchdown_held(place, sign))[0],
        }
    )


def rolling_held(place: FieldPlace, off: TakeOff, raising_s: float, sign: float) -> tuple[Array, Held]:
    """Return airspeeds of the take-off run once the tail comes up, shape (m, n), and the wind held at each.

    Where the tail is not raised before lift-off: those of its second half, tail down.
    """
    pitch = off.run.pitch_rad
    chosen = pitch[:, 0] < place.gear.tail_down_rad
    first = int(np.argmax(chosen)) - 1 if chosen.any() else len(pitch) // 2
    speeds, pitches = off.run.speeds_m_s[first::EVERY], pitch[first::EVERY]
    rising = (pitches > 0.0) & (first > 0) & bool(chosen.any())
    rates = np.where(rising, -place.gear.tail_down_rad / raising_s, 0.0)
    wheels = place.wheels(1.0)
    return speeds, held(wheels, place.flying.travel, speeds, pitches, pitching_rad_s=rates, throttle=1.0, side=sign)


def approach_held(place: FieldPlace, sign: float) -> Any:  # noqa: ANN401
    """Return the sideslip of the approach with the engine cut, and whether the rudder is at its stop."""
    speed = place.approach_m_s
    return most_sideslip(
        place.airplane,
        place.flying.travel,
        speed,
        spin_rad_s=place.spin(speed, 0.0),
        altitude_m=place.flying.altitude_m,
        throttle=0.0,
        side=sign,
    )


def touchdown_held(place: FieldPlace, sign: float) -> Held:
    """Return the wind held at touchdown on all wheels, the engine cut."""
    touch = place.touchdown_m_s[None]
    pitch = np.full_like(touch, place.gear.tail_down_rad)
    return held(
        place.wheels(0.0), place.flying.travel, touch, pitch, pitching_rad_s=0.0 * touch, throttle=0.0, side=sign
    )
