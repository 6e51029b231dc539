"""Spring wire: the sizes that are sold, and what it bears once and for ever."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.units.convert import MM_PER_M

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray

WIRES_MM = (
    0.20, 0.22, 0.25, 0.28, 0.30, 0.32, 0.36, 0.40, 0.45, 0.50, 0.56, 0.63, 0.70, 0.80, 0.90, 1.00, 1.10, 1.25, 1.40,
    1.60, 1.80, 2.00,
)  # fmt: skip
"""Preferred sizes of spring wire among the nominal diameters of EN 10270-1. [mm]"""
DENSITY_KG_M3 = 7850.0
"""Of spring steel, handbook value. [kg/m³]"""
ZIMMERLI_PA = (241e6, 379e6)
"""Amplitude and mean of the shear stress that unpeened spring wire bears for ever, whatever its size: Zimmerli, in
Shigley, chapter 10. [Pa]"""
SHEAR_ULTIMATE = 0.67
"""Ultimate strength in torsion over that in tension: Shigley, chapter 10."""


def tensile_strength(wire_m: float | FloatArray) -> FloatArray:
    """Return the least tensile strength of music wire, 2211 MPa (d/mm)^−0.145, for 0.1 to 6.5 mm. [Pa].

    References
    ----------
    Shigley, Mechanical Engineering Design, table of constants A and m for spring wires.
    """
    strength: FloatArray = 2211e6 * (np.asarray(wire_m) * MM_PER_M) ** -0.145
    return strength


def endurance(ultimate_pa: float | FloatArray) -> FloatArray:
    """Return the shear stress amplitude without a mean that unpeened wire bears for ever, from its strength. [Pa].

    Parameters
    ----------
    ultimate_pa : float or array
        Ultimate strength in torsion, above the mean of Zimmerli's point. [Pa]

    References
    ----------
    Shigley, Mechanical Engineering Design, section 10-9: Goodman's line through Zimmerli's point, Sa/(1 − Sm/Ssu).

    Examples
    --------
    >>> round(float(endurance(1000e6)) / 1e6)
    388
    """
    fully_reversed: FloatArray = ZIMMERLI_PA[0] / (1.0 - ZIMMERLI_PA[1] / np.asarray(ultimate_pa))
    return fully_reversed


def fatigue_safety(
    alternating_pa: float | FloatArray, mean_pa: float | FloatArray, wire_m: float | FloatArray
) -> FloatArray:
    """Return the safety against fatigue of unpeened wire: Goodman's line through Zimmerli's point.

    Notes
    -----
    1/n = τa/Se + τm/Ssu, Se of `endurance`, Ssu = 0.67 of the tensile strength.

    References
    ----------
    Shigley, Mechanical Engineering Design, section 10-9.
    """
    ultimate = SHEAR_ULTIMATE * tensile_strength(wire_m)
    safety: FloatArray = 1.0 / (np.asarray(alternating_pa) / endurance(ultimate) + np.asarray(mean_pa) / ultimate)
    return safety
