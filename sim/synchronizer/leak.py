"""The leak of an oil column: how much further the cam turns for what runs off past plungers while pressure stands.

Volumes are told by the turn of the cam that delivers them, so that no size of a part is needed. Through a narrow
clearance a flow is laminar: it goes with the pressure over that of the reservoir, over a viscous resistance.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.units.convert import rpm
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.units.convert import Number


@dataclass(frozen=True, slots=True)
class Leak:
    """What leaks, and during which turns of the cam.

    Attributes
    ----------
    leak_speed_rad_s : float
        Propeller speed at which all that the cam delivers leaks at the pressure of release; 0 for a tight column. At
        and below it the link never trips. [rad/s]
    windup_rad : float
        Turn of the propeller in which a tight column comes up to that pressure. [rad]
    travel_rad : float
        Turn of the propeller in which a tight column, under that pressure, moves its far end as far as it must. [rad]

    Notes
    -----
    With the delivery V' of the cam, volume over turn, the compliance C of the column and the resistance R of the
    clearance: C dp/dt = V' Ω − p/R while the pressure rises to that of release, P, and V' Ω − P/R moves the far end.
    With Ω₀ = P/(R V') and the windup w = C P/V', x = Ω₀/Ω, the turns are −w ln(1 − x)/x and f/(1 − x) for the travel f.
    To first order they are longer by (w/2 + f) Ω₀/Ω: a delay that goes as 1/Ω². They are never longer by less than
    that, nor by more than that over 1 − x. The cam lifts evenly, the oil has one viscosity and the column is full as
    each lift begins. Ω₀ falls with a thicker oil, and grows with the third power of the clearance.
    """

    leak_speed_rad_s: float = 0.0
    windup_rad: float = 0.0
    travel_rad: float = 0.0

    @property
    def counts(self) -> bool:
        """Whether it changes anything."""
        return self.leak_speed_rad_s > 0.0

    def extra_rad(self, spin_rad_s: Number) -> Number:
        """Return by how much further the propeller turns for it at a steady speed, or at each of several. [rad].

        Raises
        ------
        NoAnswerError
            At a speed at which the link never trips.

        Examples
        --------
        >>> round(Leak(30.0, 0.02, 0.04).extra_rad(120.0), 6)
        0.016348
        """
        if not self.counts:
            return 0.0 * spin_rad_s
        self.must_trip(float(np.min(spin_rad_s)))
        share = self.leak_speed_rad_s / spin_rad_s
        extra = -self.windup_rad * (np.log1p(-share) / share + 1.0) + self.travel_rad * share / (1.0 - share)
        return extra if isinstance(spin_rad_s, np.ndarray) else float(extra)

    def slope_s(self, spin_rad_s: float) -> float:
        """Return the change of that turn with the speed, never above 0. [s]."""
        if not self.counts:
            return 0.0
        share = self.leak_speed_rad_s / spin_rad_s
        rise = 1.0 / (1.0 - share) + float(np.log1p(-share)) / share
        return -(self.windup_rad * rise + self.travel_rad * share / (1.0 - share) ** 2) / spin_rad_s

    def most_off_rad(self, spin_rad_s: float, depth: float) -> float:
        """Return a bound on the turn by which a speed that ripples within a turn makes this law wrong. [rad].

        Parameters
        ----------
        spin_rad_s : float
            Mean speed, at which the law takes its time. [rad/s]
        depth : float
            Greatest deviation of the speed over its mean, 0 to below 1.

        Notes
        -----
        The slower, the more leaks: what leaks by the turn of the propeller lies between what it is at the greatest
        and at the least speed. The law takes that turn at the mean speed, the propeller turns it at either.
        """
        if not self.counts or depth == 0.0:
            return 0.0
        return self.extra_rad(spin_rad_s * (1.0 - depth)) / (1.0 - depth) - self.extra_rad(spin_rad_s)

    def must_trip(self, spin_rad_s: float) -> None:
        """Raise `NoAnswerError` where a link never trips at a speed."""
        if self.counts and spin_rad_s <= self.leak_speed_rad_s:
            spin, least = (brief("rpm", rpm(speed), digits=6) for speed in (spin_rad_s, self.leak_speed_rad_s))
            message = (
                f"the gun never trips at {spin}: at {least} and below all the oil that the cam delivers leaks off; "
            )
            raise NoAnswerError(message + "take higher speeds, or a tighter column in link.leak_speed")

    def times(self, factor: float) -> Leak:
        """Return that of a link whose turns are so many times as long."""
        return replace(self, windup_rad=factor * self.windup_rad, travel_rad=factor * self.travel_rad)


TIGHT = Leak()
