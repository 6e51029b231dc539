"""Results as a scenario file holds them: number, unit of the shop or SI, and the error where there is one."""

from __future__ import annotations

from sim.units.registry import COMMON

SHOP = {"kg": "lb", "m": "in", "kg m^2": "slug ft^2"}
"""SI unit -> what a shop that works in inches writes."""


def written(unit: str, value: float, error: float = 0.0, *, metric: bool) -> str:
    """Return an amount as a scenario holds it.

    Parameters
    ----------
    unit : str
        SI: ``kg``, ``m`` or ``kg m^2``.
    value, error : float
        In that unit; the error is one standard deviation, 0 where there is none.
    metric : bool
        Whether to write SI; else what `SHOP` says.

    Examples
    --------
    >>> written("kg", 632.5428, 4.55, metric=False)
    '1394.5 lb ± 10 lb'
    """
    shown = unit if metric else SHOP[unit]
    factor = 1.0 if metric else float(COMMON[shown].factor)
    text = f"{_plain(value / factor, 5)} {shown}"
    return f"{text} ± {_plain(error / factor, 2)} {shown}" if error > 0.0 else text


def _plain(value: float, digits: int) -> str:
    return f"{float(f'{value:.{digits}g}'):.12g}"
