"""Hinge moments of control surfaces from their geometry: plain, horn-balanced, with sealed gap, and all-moving."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.lifting_surface import flap_effectiveness

if TYPE_CHECKING:
    from sim.numerics.number import Number

MEASURED_SHARES: Final = (0.2, 0.4, 1.0)
"""Flap chords over the chord at which the sections of `MEASURED_ANGLE` and `MEASURED_DEFLECTION` stand."""
MEASURED_ANGLE: Final = (0.52, 0.77, 0.91)
"""Slope with incidence of a sealed plain flap as measured over that of a thin aerofoil: NACA 0009 in two dimensions,
−.0045 and −.010 a degree (as quoted by P. Soderman, 2009); of a whole surface its lift slope, 5.73 over 2 π."""
MEASURED_DEFLECTION: Final = (0.745, 0.85, 0.91)
"""Likewise with deflection, −.012 and −.015 a degree."""
OPEN_GAP: Final = (0.85, 0.93)
"""What an open gap at the hinge leaves of the slope with incidence and of that with deflection (from memory of NACA
tests with gaps of half a per cent of the chord; ± as the slopes themselves)."""
OPEN_GAP_MEASURED: Final = (1.05, 0.79)
"""Likewise of the one section found measured, a NACA 0015 with a gap of half a per cent of the chord, whose slope with
incidence goes the other way: −.0023 open and −.0022 sealed a degree, with deflection −.0063 and −.008 (heli-air.net,
Influence of flap-section shape, 2016, figure 12). Not used: the share of its flap is not readable there, and one figure
of two digits says little of 5 %. Either value is about one standard deviation from `OPEN_GAP`."""
HORN_TIP: Final = 0.6
"""Lift of a horn at the tip over that of a section in the middle (common practice, no source): unshielded horns balance
a surface where their moment of area ahead of the hinge is about .25 to .3 of that behind."""
QUARTER: Final = 0.25
"""Where the lift of a whole surface acts, as a share of its chord."""
ANGLE_ERROR, DEFLECTION_ERROR, HORN_ERROR, WHOLE_ERROR = 0.25, 0.15, 0.3, 0.12
"""Standard deviations over themselves: of the slopes of a plain flap with incidence and with deflection, of the part of
a horn, and of the moment of a whole surface about its leading edge, whose lift acts at .25 ± .03 of the chord."""


class SectionSlopes(NamedTuple):
    """Hinge moment coefficient on the chord behind the hinge, per radian of incidence and per radian of deflection."""

    angle_per_rad: float
    deflection_per_rad: float


def thin_aerofoil_slopes(chord_share: float) -> SectionSlopes:
    """Return the slopes of a flap on a thin aerofoil in plane flow.

    Parameters
    ----------
    chord_share : float
        Flap chord behind the hinge over the whole chord, above 0 and at most 1.

    Notes
    -----
    The exact integrals of the pressure of a bent plate without thickness or boundary layer. −π/2 both of a plate that
    turns about its leading edge.

    References
    ----------
    Glauert, R. & M. 1095, 1927; Houghton & Carpenter, Aerodynamics for Engineering Students, equations 4.55 and 4.56.

    Examples
    --------
    >>> [round(slope, 3) for slope in thin_aerofoil_slopes(0.4)]
    [-0.745, -1.013]
    """
    hinge = math.acos(2.0 * chord_share - 1.0)
    behind, square = math.pi - hinge, chord_share * chord_share
    angle = 2.0 * behind * (2.0 * math.cos(hinge) - 1.0) + 4.0 * math.sin(hinge) - math.sin(2.0 * hinge)
    bent = 1.0 - math.cos(2.0 * hinge) - 2.0 * behind**2 * (1.0 - 2.0 * math.cos(hinge))
    return SectionSlopes(-angle / (4.0 * square), -(bent + 4.0 * behind * math.sin(hinge)) / (4.0 * math.pi * square))


def plain_slopes(chord_share: float, *, sealed: bool) -> SectionSlopes:
    """Return the slopes of a plain flap on a real section in plane flow.

    Parameters
    ----------
    chord_share : float
        As in `thin_aerofoil_slopes`.
    sealed : bool
        Whether no air passes through the gap at the hinge.

    Notes
    -----
    Thin-aerofoil theory times `MEASURED_ANGLE` and `MEASURED_DEFLECTION`, by linear interpolation. For deflections up
    to about 15°; flaps of thick or bevelled trailing edge are lighter.

    Examples
    --------
    >>> [round(math.radians(slope), 4) for slope in plain_slopes(0.2, sealed=True)]
    [-0.0045, -0.012]
    """
    theory, open_gap = thin_aerofoil_slopes(chord_share), (1.0, 1.0) if sealed or chord_share == 1.0 else OPEN_GAP
    angle, deflection = (
        float(np.interp(chord_share, MEASURED_SHARES, measured)) for measured in (MEASURED_ANGLE, MEASURED_DEFLECTION)
    )
    return SectionSlopes(
        theory.angle_per_rad * angle * open_gap[0], theory.deflection_per_rad * deflection * open_gap[1]
    )


@dataclass(frozen=True, slots=True)
class HingeLaw:
    """Hinge moment of one control surface; numbers may be arrays, one entry an airplane.

    Attributes
    ----------
    volume_m3 : float
        Area behind the hinge times the chord there, of all panels that one control moves. [m³]
    plain_angle_per_rad, plain_deflection_per_rad : float
        Change of the coefficient on that volume with the incidence of the section and with deflection, without a horn,
        normally negative. [1/rad]
    horn_per_rad : float
        What horn or set-back hinge adds to both, at least 0. [1/rad]
    effectiveness : float
        Incidence that a unit of deflection is worth.
    lift_area_m2 : float
        Lift over dynamic pressure of the whole surface for a unit of incidence of its sections, the induced one taken
        off. [m²/rad]
    all_moving : bool
        Whether nothing stands ahead of the hinge but the balance.
    open_gap : bool
        Whether air passes through a gap between the fixed part and this one.
    """

    volume_m3: Number
    plain_angle_per_rad: Number
    plain_deflection_per_rad: Number
    horn_per_rad: Number
    effectiveness: float
    lift_area_m2: float
    all_moving: bool = False
    open_gap: bool = False

    @property
    def angle_per_rad(self) -> Number:
        """Change of the coefficient with incidence of the section. [1/rad]."""
        return self.plain_angle_per_rad + self.horn_per_rad

    @property
    def deflection_per_rad(self) -> Number:
        """Change of the coefficient with deflection at the same incidence of the section. [1/rad]."""
        return self.plain_deflection_per_rad + self.horn_per_rad

    @property
    def by_lift_m(self) -> Number:
        """Hinge moment for a unit of lift of the whole surface. [m]."""
        return self.volume_m3 * self.angle_per_rad / self.lift_area_m2

    @property
    def by_deflection_m3(self) -> Number:
        """Hinge moment over dynamic pressure for a unit of deflection at the same lift of the surface. [m³/rad]."""
        return self.volume_m3 * (self.deflection_per_rad - self.effectiveness * self.angle_per_rad)

    def moment_n_m(self, lift_n: Number, pressed_rad_pa: Number) -> Number:
        """Return the hinge moment, positive where it would increase the deflection. [N m].

        Parameters
        ----------
        lift_n : float
            Of the whole surface, positive as that of a positive deflection. [N]
        pressed_rad_pa : float
            Deflection times the mean dynamic pressure over the surface. [rad Pa]

        Notes
        -----
        Sections of a finite surface feel the incidence that makes their lift, α = L/(q S a₀) − τ δ, by lifting lines.
        The curvature of the stream on short wide surfaces makes deflection heavier yet: −.0009 a degree on a tail of
        aspect ratio 3 with an elevator of half its chord (NACA TN 1275, 1947, summary), some 10 %.
        """
        return self.by_lift_m * lift_n + self.by_deflection_m3 * pressed_rad_pa


def hinge_law(
    *,
    flap_span_m: float,
    chord_m: float,
    chord_share: float,
    whole_m2: float,
    section_slope: float,
    balance_share: float = 0.0,
    sealed: bool = False,
) -> HingeLaw:
    """Return the hinge moment of a rectangular control surface.

    Parameters
    ----------
    flap_span_m, chord_m : float
        Span of the movable part, and chord of the whole surface. [m]
    chord_share : float
        Chord of the movable part behind the hinge over the whole chord, at most 1, where all of it moves.
    whole_m2 : float
        Area that the lift of the surface is spread over. [m²]
    section_slope : float
        Lift slope of its section. [1/rad]
    balance_share : float
        Area ahead of the hinge over that behind it: of a horn, which goes on to the leading edge at the tip, or, where
        all of the surface moves, of its part ahead of the hinge along the whole span.
    sealed : bool
        As in `plain_slopes`.

    Notes
    -----
    The span with a horn has no fixed part: its lift, at a quarter of the chord, turns it farther. A surface that moves
    as a whole has all its lift there, whatever its span.

    Examples
    --------
    >>> rudder = hinge_law(
    ...     flap_span_m=1.2, chord_m=0.8, chord_share=1.0, whole_m2=0.96, section_slope=5.73, balance_share=1 / 3
    ... )
    >>> abs(round(rudder.moment_n_m(100.0, 50.0), 9))
    0.0
    """
    if chord_share == 1.0:
        return _all_moving(
            flap_span_m * chord_m,
            chord_m,
            whole_m2=whole_m2,
            section_slope=section_slope,
            balance_share=balance_share,
        )
    slopes = plain_slopes(chord_share, sealed=sealed)
    horned = balance_share * chord_share / (1.0 - chord_share)
    horn = HORN_TIP * section_slope * max(1.0 - QUARTER - chord_share, 0.0) / chord_share**2
    return HingeLaw(
        volume_m3=flap_span_m * (chord_share * chord_m) ** 2,
        plain_angle_per_rad=slopes.angle_per_rad * (1.0 - horned),
        plain_deflection_per_rad=slopes.deflection_per_rad * (1.0 - horned),
        horn_per_rad=horn * horned,
        effectiveness=flap_effectiveness(chord_share),
        lift_area_m2=section_slope * whole_m2,
        open_gap=not sealed,
    )


def _all_moving(
    area_m2: float, chord_m: float, *, whole_m2: float, section_slope: float, balance_share: float
) -> HingeLaw:
    """Return that of a surface without a fixed part: its lift times the distance from a quarter chord to the hinge."""
    ahead = balance_share / (1.0 + balance_share)
    return HingeLaw(
        volume_m3=area_m2 * chord_m,
        plain_angle_per_rad=-section_slope * QUARTER,
        plain_deflection_per_rad=-section_slope * QUARTER,
        horn_per_rad=section_slope * ahead,
        effectiveness=1.0,
        lift_area_m2=section_slope * whole_m2,
        all_moving=True,
    )
