"""Forces at stick and pedals in straight flight, and stability with the stick free, as handling answers them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.flight.force_limits import Force, Held
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
    past_minutes, past_moment : tuple of str
        As there.
    limit : str or None
        The limit that is exceeded where the airplane cannot fly so.
    stick_force_low_n, stick_force_high_n, stick_side_force_low_n, stick_side_force_high_n : float or None
        Ends of the 90 % band; None where no bands were asked for. [N]
    pedal_force_low_n, pedal_force_high_n : float or None
        Likewise. [N]
    """

    speed_m_s: float
    power: str
    elevator_share: float
    stick_force_n: float
    stick_side_force_n: float
    pedal_force_n: float
    force_held: Held | None
    past_minutes: tuple[Force, ...]
    past_moment: tuple[Force, ...]
    limit: Limit | None
    stick_force_low_n: float | None = None
    stick_force_high_n: float | None = None
    stick_side_force_low_n: float | None = None
    stick_side_force_high_n: float | None = None
    pedal_force_low_n: float | None = None
    pedal_force_high_n: float | None = None


@dataclass(frozen=True, slots=True)
class LetGo:
    """The steady flight to which the airplane balances at the throttle of level flight with controls let go.

    Attributes
    ----------
    what : str
        ``pedals``: the hand keeps airspeed and the wings level; ``all, trimmed``: stick and pedals, but for the force
        fore and aft of level flight, which a spring or a turned tailplane holds; ``all``: nothing is held.
    speed_m_s, bank_deg, turn_rate_deg_s, sideslip_deg, climb_rate_m_s : float
        Right positive, wind from the right positive, up positive; not-a-number where nothing balances. [m/s, °, °/s]
    elevator_share, aileron_share, rudder_share : float
        As in `sim.studies.handling_answer.SteadyTurn`.
    time_to_double_s : float or None
        Of what grows fastest about that flight, with what is let go of elevator and rudder free and the ailerons held;
        None where nothing grows. [s]
    grows : str
        The mode that does; empty where none does.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes.
    """

    what: str
    speed_m_s: float
    bank_deg: float
    turn_rate_deg_s: float
    sideslip_deg: float
    climb_rate_m_s: float
    elevator_share: float
    aileron_share: float
    rudder_share: float
    time_to_double_s: float | None
    grows: str = ""
    beyond: tuple[str, ...] = ()


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
    elevator_swing_rad_s : float
        At which the free elevator would swing on its own in this flight, with the inertia of an even plate of its mass
        and centre of gravity; not-a-number where that is not behind the hinge, or it does not centre. [rad/s]
    let_go : tuple of LetGo
        With the pedals let go, with stick and pedals and a trimmed elevator, with nothing held.
    estimated : tuple of str
        Keys of the scenario in whose place estimates serve.
    open_gaps : tuple of str
        Surfaces at whose hinges the gap is open.
    stick_force_per_g_low_n, stick_force_per_g_high_n : float or None
        Ends of the 90 % band; None where no bands were asked for. [N]
    static_margin_free_low, static_margin_free_high : float or None
        Likewise.
    force_reversed_probability : float or None
        Of the airplanes drawn, the share of which `force_reversed` is true.
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
    elevator_swing_rad_s: float
    let_go: tuple[LetGo, ...]
    estimated: tuple[str, ...]
    open_gaps: tuple[str, ...]
    stick_force_per_g_low_n: float | None = None
    stick_force_per_g_high_n: float | None = None
    static_margin_free_low: float | None = None
    static_margin_free_high: float | None = None
    force_reversed_probability: float | None = None
