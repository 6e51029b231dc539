"""What a lifting surface does: lift slope, flaps, downwash and sidewash, roll and yaw of a wing; one formula each.

Every function returns the mean estimate. Its known error stands in its docstring and, as a fraction of the value
(one standard deviation), in the constant beside it, from which the printed bands are built.
"""

from __future__ import annotations

import math

LIFT_SLOPE_ERROR = 0.05
FLAP_ERROR = 0.20
FLAP_LOSS = 0.8
"""What a real flap with a gap and a boundary layer keeps of the thin-aerofoil value."""
DOWNWASH_ERROR = 0.15
SIDEWASH_ERROR = 0.15
DIHEDRAL_ERROR = 0.20
ROLL_DAMPING_ERROR = 0.20
AILERON_ERROR = 0.20
CROSS_ERROR = 0.30
"""Of the terms that grow with lift: roll due to yaw, yaw due to roll, adverse yaw."""


def lift_slope(section_slope: float, aspect: float) -> float:
    """Return the lift slope of a wing from that of its section, by lifting-line theory. [1/rad].

    Parameters
    ----------
    section_slope : float
        Lift slope in plane flow, greater than 0. [1/rad]
    aspect : float
        Aspect ratio; of a biplane that of the equivalent monoplane. Greater than 0.

    Notes
    -----
    Elliptic loading, straight wing. Known error ±5 % from aspect ratio 4 up; for a biplane it reads up to 8 % high,
    because each plane also curves the flow at the other. Below aspect ratio 3 it reads high by 10 % and more.

    References
    ----------
    Nelson, Flight Stability and Automatic Control, 2nd ed. 1998, equation 2.7 and Example 2.2.

    Examples
    --------
    >>> round(lift_slope(5.558, 6.063), 2)
    4.3
    """
    return section_slope / (1.0 + section_slope / (math.pi * aspect))


def rolling_slope(section_slope: float, aspect: float) -> float:
    """Return the lift slope that holds for a load of opposite sign on the two wings, as in rolling. [1/rad].

    Parameters
    ----------
    section_slope : float
        Lift slope in plane flow, greater than 0. [1/rad]
    aspect : float
        As in `lift_slope`.

    Notes
    -----
    The second term of the lifting-line series: each half of the wing lifts as a wing of half the aspect ratio.
    Known error as `lift_slope`.

    References
    ----------
    Glauert, The Elements of Aerofoil and Airscrew Theory, 2nd ed. 1947, chapter XI.

    Examples
    --------
    >>> round(rolling_slope(5.558, 6.063), 2)
    3.51
    """
    return lift_slope(section_slope, 0.5 * aspect)


def flap_effectiveness(chord_share: float) -> float:
    """Return the turn of the whole surface that one of its flap is worth.

    Parameters
    ----------
    chord_share : float
        Flap chord over the whole chord, 0 to 1.

    Notes
    -----
    Thin-aerofoil theory times .8 for the gap and the boundary layer, small deflection. Known error ±20 %; reads
    30 % high beyond 20° of deflection.

    References
    ----------
    Glauert, R. & M. 1095, 1927; Nelson, 2nd ed. 1998, figure 2.21, has .6 for a share of .4.

    Examples
    --------
    >>> round(flap_effectiveness(0.4), 3)
    0.598
    """
    hinge = math.acos(2.0 * chord_share - 1.0)
    return FLAP_LOSS * (1.0 - (hinge - math.sin(hinge)) / math.pi)


def downwash_slope(wing_slope: float, aspect: float) -> float:
    """Return how much the flow at the tailplane turns down for each unit that the wing turns up.

    Parameters
    ----------
    wing_slope : float
        Lift slope of the wing. [1/rad]
    aspect : float
        As in `lift_slope`.

    Notes
    -----
    Twice the downwash at the wing: a tail far behind and in the wake of an elliptically loaded wing. Known error
    ±15 %; reads high for a tail close up or well above the wake.

    References
    ----------
    Nelson, 2nd ed. 1998, equation 2.23 and Example 2.2.

    Examples
    --------
    >>> round(downwash_slope(4.30, 6.063), 2)
    0.45
    """
    return 2.0 * wing_slope / (math.pi * aspect)


def sidewash_factor(fin_area_m2: float, wing_area_m2: float, aspect: float) -> float:
    """Return (1 + dσ/dβ) times the pressure ratio at the fin, for a wing at mid-height of the body.

    Parameters
    ----------
    fin_area_m2, wing_area_m2 : float
        Areas. [m²]
    aspect : float
        As in `lift_slope`.

    Notes
    -----
    An empirical fit to monoplanes without sweep; a biplane is taken as a mid wing. Known error ±15 %.

    References
    ----------
    Nelson, 2nd ed. 1998, equation 2.80, after USAF Datcom.

    Examples
    --------
    >>> round(sidewash_factor(12.5, 184.0, 6.063), 3)
    0.883
    """
    return 0.724 + 1.53 * fin_area_m2 / wing_area_m2 + 0.009 * aspect


def dihedral_effect(rolling_slope: float, dihedral_rad: float, taper: float = 1.0) -> float:
    """Return the rolling moment due to sideslip of a wing with dihedral: negative, away from the slip. [1/rad].

    Parameters
    ----------
    rolling_slope : float
        From `rolling_slope`. [1/rad]
    dihedral_rad : float
        Tips up positive. [rad]
    taper : float
        Tip chord over root chord, 0 to 1.

    Notes
    -----
    Strip theory with the antisymmetric slope. Known error ±20 %; tip shape and body height add ±.01 to ±.03.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 3.12; strips summed over a straight-tapered half wing.

    Examples
    --------
    >>> round(dihedral_effect(3.6, 0.05), 3)
    -0.045
    """
    return -rolling_slope * dihedral_rad * (1.0 + 2.0 * taper) / (6.0 * (1.0 + taper))


def sweep_effect(lift: float, sweep_rad: float) -> float:
    """Return the rolling moment due to sideslip of a wing with sweep: negative for tips aft. [1/rad].

    Parameters
    ----------
    lift : float
        Lift coefficient.
    sweep_rad : float
        Tips aft positive. [rad]

    Notes
    -----
    Simple sweep theory on a rectangular wing. Known error ±30 %.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 3.12.

    Examples
    --------
    >>> round(sweep_effect(0.4, 0.1), 4)
    -0.0201
    """
    return -0.5 * lift * math.tan(sweep_rad)


def roll_damping(slope: float, taper: float = 1.0) -> float:
    """Return the rolling moment due to roll rate of a wing, negative. [per unit of p b/2V].

    Parameters
    ----------
    slope : float
        Lift slope; give it the antisymmetric one of `rolling_slope`. [1/rad]
    taper : float
        Tip chord over root chord, 0 to 1.

    Notes
    -----
    Strip theory. With the symmetric slope, as the book has it, the Navion comes out at −.610 against −.410
    measured; with the antisymmetric slope at −.497. Known error ±20 %, reads high.

    References
    ----------
    Nelson, 2nd ed. 1998, chapter 3, table of lateral estimates; Example 5.1 for the Navion.

    Examples
    --------
    >>> round(roll_damping(4.30, 0.54), 2)
    -0.61
    """
    return -slope / 12.0 * (1.0 + 3.0 * taper) / (1.0 + taper)


def aileron_power(rolling_slope: float, effectiveness: float, inner: float, outer: float) -> float:
    """Return the rolling moment due to aileron: negative, trailing edge down on the right rolls left. [1/rad].

    Parameters
    ----------
    rolling_slope : float
        From `rolling_slope`. [1/rad]
    effectiveness : float
        From `flap_effectiveness`.
    inner, outer : float
        Ends of the aileron as shares of the semi-span, 0 to 1.

    Notes
    -----
    Strip theory on a rectangular wing; both ailerons move by the same angle. Known error ±20 %.

    References
    ----------
    Nelson, 2nd ed. 1998, equation 2.92.

    Examples
    --------
    >>> round(aileron_power(3.5, 0.5, 0.5, 1.0), 3)
    -0.328
    """
    return -rolling_slope * effectiveness * (outer * outer - inner * inner) / 4.0


def fin_aspect(height_m: float, area_m2: float) -> float:
    """Return the aspect ratio that a fin on a body lifts by.

    Parameters
    ----------
    height_m : float
        From root to tip. [m]
    area_m2 : float
        Fin and rudder. [m²]

    Notes
    -----
    Geometric, times 1.55 for body and tailplane that stop the flow round the root. Known error ±20 %.

    References
    ----------
    USAF Datcom, section 5.3.1.1; Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, appendix B.

    Examples
    --------
    >>> fin_aspect(1.0, 1.0)
    1.55
    """
    return 1.55 * height_m * height_m / area_m2
