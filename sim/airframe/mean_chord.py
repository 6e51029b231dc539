"""The mean aerodynamic chord of one or more planes in stations, the reference of the centre of gravity."""

from __future__ import annotations

from dataclasses import dataclass
from math import tan
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.wing import Plane, Wing


@dataclass(frozen=True, slots=True)
class PlaneStation:
    """One plane in the mean chord.

    Attributes
    ----------
    area_m2, chord_m : float
        Its area and its own mean chord. [m², m]
    leading_edge_station_m : float
        Station of the leading edge of that chord, aft of the datum. [m]
    efficiency : float
        Lift of the plane per area relative to the others, above 0. Only the proportions count.
    """

    area_m2: float
    chord_m: float
    leading_edge_station_m: float
    efficiency: float = 1.0


@dataclass(frozen=True, slots=True)
class MeanChord:
    """The mean aerodynamic chord.

    Attributes
    ----------
    chord_m : float
        Its length. [m]
    leading_edge_station_m : float
        Its leading edge, aft of the datum. [m]
    """

    chord_m: float
    leading_edge_station_m: float

    def percent(self, station_m: float) -> float:
        """Return a station in percent of the chord, aft of its leading edge.

        Parameters
        ----------
        station_m : float
            Aft of the datum. [m]
        """
        return 100.0 * (station_m - self.leading_edge_station_m) / self.chord_m

    def station_m(self, share: float) -> float:
        """Return the station at a share of the chord, 0 at its leading edge, 1 at its trailing edge [m]."""
        return self.leading_edge_station_m + share * self.chord_m


def mean_chord(planes: Sequence[PlaneStation]) -> MeanChord:
    """Return the mean chord of planes, weighted by area and efficiency.

    Notes
    -----
    The lower plane of a biplane lifts less for its area than the upper, 5 to 15 % at the usual gap and stagger;
    with equal chords only the place of the mean chord changes with it.

    Examples
    --------
    >>> mean_chord([PlaneStation(10.0, 1.5, 0.8), PlaneStation(10.0, 1.5, 1.2)])
    MeanChord(chord_m=1.5, leading_edge_station_m=1.0)
    """
    weights = [plane.area_m2 * plane.efficiency for plane in planes]
    lift = sum(weights)
    return MeanChord(
        chord_m=sum(w * plane.chord_m for w, plane in zip(weights, planes, strict=True)) / lift,
        leading_edge_station_m=sum(w * plane.leading_edge_station_m for w, plane in zip(weights, planes, strict=True))
        / lift,
    )


def tapered(
    *, span_m: float, chord_m: float, taper: float = 1.0, sweep: float = 0.0, leading_edge_station_m: float = 0.0
) -> MeanChord:
    """Return the mean aerodynamic chord of one plane with straight edges.

    Parameters
    ----------
    span_m, chord_m : float
        Span and plain mean chord, area over span. [m]
    taper : float
        Tip chord over root chord.
    sweep : float
        Tangent of the sweep of the quarter-chord line, tips aft positive.
    leading_edge_station_m : float
        Of the leading edge at the middle of the airplane. [m]

    References
    ----------
    Etkin & Reid, Dynamics of Flight, appendix C.

    Examples
    --------
    >>> round(tapered(span_m=9.0, chord_m=1.5, taper=0.5).chord_m, 4)
    1.5556
    """
    root_m = 2.0 * chord_m / (1.0 + taper)
    mean_m = 2.0 / 3.0 * root_m * (1.0 + taper + taper**2) / (1.0 + taper)
    out_m = span_m / 6.0 * (1.0 + 2.0 * taper) / (1.0 + taper)
    return MeanChord(mean_m, leading_edge_station_m + 0.25 * (root_m - mean_m) + out_m * sweep)


def wing_mean_chord(wing: Wing, leading_edge_station_m: float, *, lower_efficiency: float = 1.0) -> MeanChord:
    """Return the mean aerodynamic chord of a wing, in stations.

    Parameters
    ----------
    wing : Wing
        Each plane stands ahead of the one below by the stagger.
    leading_edge_station_m : float
        Of the lowest plane at the middle of the airplane, aft of the datum. [m]
    lower_efficiency : float
        Lift per area of every plane but the top one over the top one's, above 0.
    """
    upwards = reversed(wing.planes)
    return mean_chord(
        [
            _station(
                plane,
                leading_edge_station_m - number * wing.stagger_m,
                1.0 if plane is wing.planes[0] else lower_efficiency,
            )
            for number, plane in enumerate(upwards)
        ]
    )


def _station(plane: Plane, leading_edge_station_m: float, efficiency: float) -> PlaneStation:
    own = tapered(
        span_m=plane.span_m,
        chord_m=plane.chord_m,
        taper=plane.taper,
        sweep=tan(plane.sweep_rad),
        leading_edge_station_m=leading_edge_station_m,
    )
    return PlaneStation(plane.area_m2, own.chord_m, own.leading_edge_station_m, efficiency)
