"""Forces at stick and pedals in straight flight, and stability with the stick free, as handling answers them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.flight.force_limits import Held
    from sim.flight.turn_limits import Limit


@dataclass(frozen=True, slots=True)
class StraightForces:
    """What the pilot holds in straight flight, wings level.

    Attributes
    ----------
    speed_m_s : float
        [m/s]
    power : str
        ``level``; ``same``: at the throttle of level flight at the speed of the turns; ``full`` and ``idle`` throttle.
        All but the first climb or sink.
    elevator_share : float
        Elevator as a fraction of its travel to that side, stick forward positive.
    stick_force_n, stick_side_force_n, pedal_force_n : float
        As in `SteadyTurn`; not-a-number where there is no such flight. [N]
    force_held : str or None
        As there.
    limit : str or None
        The limit that is exceeded where the airplane cannot fly so.
    """

    speed_m_s: float
    power: str
    elevator_share: float
    stick_force_n: float
    stick_side_force_n: float
    pedal_force_n: float
    force_held: Held | None
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class StickForces:
    """Stick force and stability with the stick free, with one powerplant.

    Attributes
    ----------
    stick_force_per_g_n : float
        Pull for one more unit of load factor, power off. [N]
    hands_off_m_s : tuple of float
        Airspeeds of level flight, among those of `straight`, at which the stick stays where it is without a hand. [m/s]
    tail_turn_deg : float
        By which the tailplane would have to turn, leading edge up positive, for that at the speed of the turns. [°]
    static_margin, static_margin_free : float
        Neutral point aft of the centre of gravity, stick fixed and stick free, shares of the mean chord, power off; the
        second is not-a-number where the free elevator does not centre.
    stick_friction_n, pedal_friction_n : float
        Within which nothing moves. [N]
    position_reversed, force_reversed : bool
        Whether flying faster than the turns at the throttle of level flight takes the stick farther back; whether it
        takes more pull, so that an airplane let go does not come back to its speed.
    straight : tuple of StraightForces
        Level over speed, then faster and slower at the same throttle, then with full and idle throttle at the speed of
        the turns.
    estimated : tuple of str
        Keys of the scenario in whose place estimates serve.
    stick_force_per_g_low_n, stick_force_per_g_high_n : float or None
        Ends of the 90 % band; None where no bands were asked for. [N]
    static_margin_free_low, static_margin_free_high : float or None
        Likewise.
    """

    stick_force_per_g_n: float
    hands_off_m_s: tuple[float, ...]
    tail_turn_deg: float
    static_margin: float
    static_margin_free: float
    stick_friction_n: float
    pedal_friction_n: float
    position_reversed: bool
    force_reversed: bool
    straight: tuple[StraightForces, ...]
    estimated: tuple[str, ...]
    stick_force_per_g_low_n: float | None = None
    stick_force_per_g_high_n: float | None = None
    static_margin_free_low: float | None = None
    static_margin_free_high: float | None = None
