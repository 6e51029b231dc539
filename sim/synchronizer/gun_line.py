"""A gun line: a line of fire through a turning propeller, the gun behind it, and how late its rounds are."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.synchronizer.cam import even
from sim.synchronizer.leak import TIGHT
from sim.units.convert import per_min, per_s, rpm
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.cam import Cam
    from sim.synchronizer.leak import Leak


@dataclass(frozen=True, slots=True)
class GunLine:
    """A line of fire through a propeller, and the cam that times it.

    Attributes
    ----------
    spin_rad_s : tuple of float
        Propeller speeds at which it is studied, each above 0. [rad/s]
    blades : int
        Blades, evenly spaced.
    blocked_rad : float
        Arc that one blade blocks, the bullet's diameter included, margins not. [rad]
    margin_rad : float
        Arc kept clear on each side of a blade. [rad]
    delay_s : float
        The part of the mean delay from the cam to passage through the disc that takes the same time at every speed:
        link, lock, barrel and flight. [s]
    natural_rate_per_s : float or None
        Rate of fire of the gun on its own; None where only the windows are asked for. [1/s]
    action : str
        ``interrupter``: the gun cycles freely and the cam holds the sear while a blade is due. ``impulse``: every
        impulse of the cam releases one round, if the gun is ready.
    impulses_per_rev : fractions.Fraction or int
        Impulses, or windows of an ideal interrupter's cam, in a turn of the propeller; 0 for as many as there are
        blades. Where the blades that pass from one to the next are no whole number, some of them meet a blade.
    powerplant : str
        Name of the engine that turns the propeller; empty where there is none.
    flight_s : float
        The part of the delay after the muzzle. [s]
    cam : Cam or None
        The cam, cut once; None for the ideal one, fitted to each speed.
    rotation : str
        ``clockwise`` or ``anticlockwise``: sense of the propeller, seen from the cockpit; empty where it is not known.
    bore_turn_rad : float
        Turn of the propeller that brings blade 1 from straight up to the bore line. [rad]
    delay_rad : float
        The part of the mean delay that takes the same turn of the propeller at every speed: rise of the follower, play
        and wind-up of the link. [rad]
    leak : Leak
        The leak of an oil column, by which the propeller turns further the slower it is.
    """

    spin_rad_s: tuple[float, ...]
    blades: int
    blocked_rad: float
    margin_rad: float = 0.0
    delay_s: float = 0.0
    natural_rate_per_s: float | None = None
    action: Action = "interrupter"
    impulses_per_rev: Fraction | int = 0
    powerplant: str = ""
    flight_s: float = 0.0
    cam: Cam | None = None
    rotation: str = ""
    bore_turn_rad: float = 0.0
    delay_rad: float = 0.0
    leak: Leak = TIGHT

    @property
    def rpm(self) -> tuple[float, ...]:
        """The propeller speeds in rpm."""
        return tuple(neat(rpm(spin)) for spin in self.spin_rad_s)

    @property
    def gun_rounds_per_min(self) -> float:
        """The gun's own rate in rounds a minute; 0 where it is not known."""
        return neat(per_min(self.natural_rate_per_s or 0.0))

    @property
    def cycle_s(self) -> float:
        """Time from round to round of the gun on its own, in seconds; its rate must be known."""
        return 1.0 / per_s(self.gun_rounds_per_min)

    @property
    def openings(self) -> Fraction:
        """Windows of the cam in a turn of the propeller, on the mean; of an ideal one where none is cut."""
        if self.cam is not None:
            return Fraction(len(self.cam.windows), self.cam.period_turns)
        return Fraction(self.impulses_per_rev or self.blades)

    @property
    def blades_per_opening(self) -> Fraction:
        """Blade intervals from one window to the next, on the mean."""
        return self.blades / self.openings

    @property
    def spacing_deg(self) -> float:
        """Angle from one blade to the next, in degrees."""
        return 360.0 / self.blades

    @property
    def closed_deg(self) -> float:
        """Arc about one blade in which no round may pass, both margins included, in degrees."""
        return neat(math.degrees(self.blocked_rad + 2.0 * self.margin_rad))

    @property
    def closed_rad(self) -> float:
        """The same arc in radians."""
        return math.radians(self.closed_deg)

    @property
    def clear_deg(self) -> float:
        """Arc left between two blades, in degrees; negative where the closed arcs overlap."""
        return self.spacing_deg - self.closed_deg

    @property
    def clear_rad(self) -> float:
        """The same arc in radians."""
        return math.radians(self.clear_deg)

    def lead_rad(self, spin_rad_s: float) -> float:
        """Return the turn of the propeller between cam and passage at a speed, in radians.

        Raises
        ------
        NoAnswerError
            At a speed at which an oil column that leaks never trips; so too the other two that need the lead.
        """
        return self.delay_rad + spin_rad_s * self.delay_s + self.leak.extra_rad(spin_rad_s)

    def whole_delay_s(self, spin_rad_s: float) -> float:
        """Return the mean time from cam to passage at a speed above 0, in seconds."""
        return self.delay_s + (self.delay_rad + self.leak.extra_rad(spin_rad_s)) / spin_rad_s

    def cam_at(self, spin_rad_s: float) -> Cam:
        """Return the cam; without one the ideal cam for a speed.

        That of an interrupter is open for the whole clear arc between two blades, that of an impulse gives it in the
        middle of that arc. Where the closed arcs of the blades overlap, it stays shut.
        """
        if self.cam is not None:
            return self.cam
        lead_rad, middle_rad = self.lead_rad(spin_rad_s), math.pi / self.blades
        opens_rad, dwell_rad = 0.5 * self.closed_rad - lead_rad, self.clear_rad
        if self.action == "impulse" and dwell_rad >= 0.0:
            opens_rad, dwell_rad = middle_rad - lead_rad, 0.0
        count, turns = self.openings.as_integer_ratio()
        return even(opens_rad, dwell_rad, count, turns=turns, ideal=True)

    def closed_part(self) -> tuple[float, float]:
        """Return the closed part of one interval from opening to opening, and that interval, in one small unit.

        For windows at even angles. Whole degrees give whole numbers, which is what makes the rate exact.
        """
        count, turns = self.openings.as_integer_ratio()
        if self.cam is not None:
            interval = 360.0 * turns
            return max(0.0, interval - count * neat(math.degrees(self.cam.dwell_rad))), interval
        interval = 360.0 * self.blades * turns
        return max(0.0, interval - count * (360.0 - self.blades * self.closed_deg)), interval

    def must_leave_a_window(self, question: str) -> None:
        """Raise `NoAnswerError` where the closed arcs of the blades overlap; `question` is what then has no answer."""
        if self.clear_deg < 0.0:
            closed, spacing = told_arcs(self.closed_deg, self.spacing_deg)
            message = f"{question}: each blade blocks {closed} with its margins and the blades are {spacing} apart; "
            raise NoAnswerError(message + "narrow the arc or take fewer blades")

    def swept(self, steps: int) -> GunLine:
        """Return the same line at even steps of speed, from the first of its speeds to the last."""
        first, last = self.spin_rad_s[0], self.spin_rad_s[-1]
        return replace(self, spin_rad_s=tuple(first + (last - first) * step / steps for step in range(steps + 1)))


def untimed_strike_share(line: GunLine) -> float:
    """Return the probability that a round fired without the gear strikes a blade.

    Fired at any angle alike, whatever else scatters, it passes at any angle alike: the blocked share of a turn.

    Examples
    --------
    >>> round(untimed_strike_share(GunLine((), 2, math.radians(30.0))), 6)
    0.166667
    """
    return min(1.0, line.blades * line.blocked_rad / math.tau)


def told_arcs(*arcs_deg: float) -> tuple[str, ...]:
    """Return arcs as told in one sentence: to a tenth of a degree, finer where two would look the same.

    Examples
    --------
    >>> told_arcs(196.374, 180.0), told_arcs(180.02, 180.0)
    (('196.4°', '180°'), ('180.02°', '180°'))
    """
    unlike = len(set(arcs_deg))
    decimals = next((places for places in range(1, 9) if len({round(arc, places) for arc in arcs_deg}) == unlike), 9)
    return tuple(brief("blocked_deg", round(arc, decimals), digits=12) for arc in arcs_deg)


def neat(value: float) -> float:
    """Return a number without the rounding error of a unit's factor: 1200 rpm comes back as 1200, not 1200.0…02."""
    return float(f"{value:.15g}")
