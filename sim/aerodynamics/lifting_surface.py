"""Formulas beside the lattice: effectiveness of flaps, and sidewash of the body."""

from __future__ import annotations

import math

FLAP_LOSS = 0.8
"""What a real flap with a gap and a boundary layer keeps of the thin-aerofoil value."""


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


def sidewash_factor(fin_area_m2: float, wing_area_m2: float, aspect: float, below: float = 0.0) -> float:
    """Return (1 + dσ/dβ) times the pressure ratio at the fin.

    Parameters
    ----------
    fin_area_m2, wing_area_m2 : float
        Areas. [m²]
    aspect : float
        As in `lift_slope`.
    below : float
        Distance of the wing below the axis of the body over the depth of the body, −.5 to .5.

    Notes
    -----
    An empirical fit to monoplanes without sweep. Known error ±15 %.

    References
    ----------
    Nelson, 2nd ed. 1998, equation 2.80, after USAF Datcom.

    Examples
    --------
    >>> round(sidewash_factor(12.5, 184.0, 6.063), 3)
    0.883
    """
    return 0.724 + 1.53 * fin_area_m2 / wing_area_m2 + 0.4 * below + 0.009 * aspect
