"""Coefficients of the explicit Runge–Kutta method of Dormand and Prince, order 8 with errors of order 5 and 3.

The numbers are in ``dop853.toml``, with their source. A step of size h from time t and state y computes twelve
slopes::

    k[i] = f(t + nodes[i] h, y + h Σ stage_weights[i][j] k[j]),  j < i

and from them the new state y + h Σ weights[i] k[i]. The error estimates of order 5 and 3 are h Σ error_5[i] k[i] and
h Σ error_3[i] k[i].
"""

from __future__ import annotations

from pathlib import Path
from typing import Final, NamedTuple

import tomli


class Tableau(NamedTuple):
    """Coefficients of an explicit Runge–Kutta method with two error estimates.

    Attributes
    ----------
    nodes : tuple of float
        Time of each slope as a fraction of the step.
    stage_weights : tuple of tuple of float
        Weights of the earlier slopes in the state at which each slope is taken.
    weights : tuple of float
        Weights of the slopes in the new state.
    error_5, error_3 : tuple of float
        Weights of the slopes in the error estimates of order 5 and 3.
    """

    nodes: tuple[float, ...]
    stage_weights: tuple[tuple[float, ...], ...]
    weights: tuple[float, ...]
    error_5: tuple[float, ...]
    error_3: tuple[float, ...]


def _read(path: Path) -> Tableau:
    table = tomli.loads(path.read_text(encoding="utf-8"))
    stages = tuple(map(tuple, table.pop("stage_weights")))
    return Tableau(stage_weights=stages, **{name: tuple(numbers) for name, numbers in table.items()})


DOP853: Final = _read(Path(__file__).with_name("dop853.toml"))
