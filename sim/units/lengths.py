"""Lengths as a shop reads its tape: feet and inches."""

from __future__ import annotations

from sim.units.registry import ratio


def feet_inches(length_m: float) -> str:
    """Return a length as a shop reads its tape: ``28 ft 1.00 in``, below a foot ``7.25 in``.

    Parameters
    ----------
    length_m : float
        [m]

    Examples
    --------
    >>> feet_inches(8.5598)
    '28 ft 1.00 in'
    """
    hundredths = round(abs(length_m) / float(ratio("in", "m")) * 100.0)
    feet, inches = divmod(hundredths, 1200)
    text = f"{feet} ft {inches / 100.0:.2f} in" if feet else f"{inches / 100.0:.2f} in"
    return f"-{text}" if length_m < 0.0 and hundredths else text
