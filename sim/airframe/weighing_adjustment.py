"""Weight and centre of gravity of one weighing by generalised least squares over its attitudes."""

from __future__ import annotations

from math import cos, hypot, sin
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.weighing_data import Weighed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.weighing_data import Attitude, Support

FLOOR = 1e-6
"""Least relative error that the weights see: without any error given, every attitude weighs the same."""
ROUNDS = 4
"""Of the adjustment: how far an error of attitude reaches depends on the centre of gravity found."""


def adjusted(
    supports: Mapping[str, Support], attitudes: Sequence[Attitude], assumed: tuple[float, float] | None
) -> tuple[Weighed, tuple[tuple[float, float], ...]]:
    """Return weight and centre of gravity, and for each attitude the residual of its resultant with its error [m].

    Parameters
    ----------
    supports, attitudes
        As `sim.airframe.weighing.weigh` has checked them.
    assumed : tuple or None
        Height and its standard error where the attitudes do not determine it. [m]

    Notes
    -----
    Each attitude observes its total W = m and the place of its resultant D = Σ r p / W = x cos θ + z sin θ. With J the
    derivatives of these residuals by every independent error (reading, station and waterline of an axle, pitch,
    assumed height) and S its variances, their covariance is C = J S Jᵀ; correlations between attitudes are in it.
    The estimate is G y with G = (Aᵀ V⁻¹ A)⁻¹ Aᵀ V⁻¹, V = C with a floor, and its covariance G C Gᵀ.
    """
    observed = _observed(supports, attitudes)
    cg = float(observed[1::2].mean()), assumed[0] if assumed else 0.0
    design = _design(attitudes, height=assumed is None)
    if assumed:
        observed[1::2] -= [assumed[0] * sin(attitude.pitch_rad) for attitude in attitudes]
    for _ in range(ROUNDS):
        scatter = _scatter(supports, attitudes, cg, assumed[1] if assumed else 0.0)
        gain = _gain(design, scatter, _floor(supports, attitudes))
        found = gain @ observed
        cg = float(found[1]), assumed[0] if assumed else float(found[2])
    covariance = gain @ scatter @ gain.T
    rest = np.eye(len(observed)) - design @ gain
    residuals, spread = rest @ observed, np.diag(rest @ scatter @ rest.T)
    spread = np.where(spread > FLOOR * np.diag(scatter), spread, 0.0)  # without redundancy nothing but rounding is left
    errors = np.sqrt(np.maximum(np.diag(covariance), 0.0))
    right_m, right_error_m = _right(supports, attitudes)
    weighed = Weighed(
        mass_kg=float(found[0]),
        mass_error_kg=float(errors[0]),
        cg_station_m=float(found[1]),
        cg_error_m=float(errors[1]),
        cg_buttline_m=right_m,
        cg_buttline_error_m=right_error_m,
        cg_waterline_m=None if assumed else float(found[2]),
        cg_waterline_error_m=None if assumed else float(errors[2]),
        covariance=tuple(tuple(row) for row in covariance.tolist()),
    )
    left = zip(residuals[1::2].tolist(), np.sqrt(spread[1::2]).tolist(), strict=True)
    return weighed, tuple(left)


def _observed(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> NDArray[np.float64]:
    """Return W and D of each attitude in turn [kg, m]."""
    return np.array([part for attitude in attitudes for part in (attitude.net_kg, _resultant_m(supports, attitude))])


def _resultant_m(supports: Mapping[str, Support], attitude: Attitude) -> float:
    moment = sum(_behind(supports[name], attitude) * r.net_kg for name, r in attitude.readings.items())
    return moment / attitude.net_kg


def _behind(support: Support, attitude: Attitude) -> float:
    """Return how far a support stands behind the origin, level distance [m]."""
    return support.station_m * cos(attitude.pitch_rad) + support.waterline_m * sin(attitude.pitch_rad)


def _design(attitudes: Sequence[Attitude], *, height: bool) -> NDArray[np.float64]:
    """Return the derivatives of the observations by mass, station and, where it is unknown, height."""
    rows = [
        row
        for attitude in attitudes
        for row in ((1.0, 0.0, 0.0), (0.0, cos(attitude.pitch_rad), sin(attitude.pitch_rad)))
    ]
    return np.array(rows)[:, : 3 if height else 2]


def _scatter(
    supports: Mapping[str, Support], attitudes: Sequence[Attitude], cg: tuple[float, float], height_error_m: float
) -> NDArray[np.float64]:
    """Return the covariance of W and D of every attitude."""
    columns = [*_scale_columns(supports, attitudes), *_axle_columns(supports, attitudes)]
    columns += _pitch_columns(supports, attitudes, cg)
    columns.append([part for a in attitudes for part in (0.0, -sin(a.pitch_rad) * height_error_m)])
    effects = np.array(columns)
    return np.asarray(effects.T @ effects, dtype=np.float64)


def _scale_columns(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> Iterator[list[float]]:
    for place, attitude in enumerate(attitudes):
        behind_m = _resultant_m(supports, attitude)
        for name, reading in attitude.readings.items():
            column, lever = [0.0] * (2 * len(attitudes)), _behind(supports[name], attitude) - behind_m
            column[2 * place] = reading.mass_error_kg
            column[2 * place + 1] = reading.mass_error_kg * lever / attitude.net_kg
            yield column


def _axle_columns(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> Iterator[list[float]]:
    """Yield the effect of one standard error of the station, then of the waterline, of each axle."""
    for axle in {support.axle for support in supports.values()}:
        shares = [
            sum(r.net_kg for name, r in a.readings.items() if supports[name].axle == axle) / a.net_kg for a in attitudes
        ]
        pairs = list(zip(shares, attitudes, strict=True))
        yield [part for share, a in pairs for part in (0.0, share * cos(a.pitch_rad) * axle[2])]
        yield [part for share, a in pairs for part in (0.0, share * sin(a.pitch_rad) * axle[3])]


def _pitch_columns(
    supports: Mapping[str, Support], attitudes: Sequence[Attitude], cg: tuple[float, float]
) -> Iterator[list[float]]:
    for place, attitude in enumerate(attitudes):
        below_m, ahead_m = (
            sum(getattr(supports[name], key) * r.net_kg for name, r in attitude.readings.items()) / attitude.net_kg
            for key in ("waterline_m", "station_m")
        )
        lever = (below_m - cg[1]) * cos(attitude.pitch_rad) - (ahead_m - cg[0]) * sin(attitude.pitch_rad)
        column = [0.0] * (2 * len(attitudes))
        column[2 * place + 1] = lever * attitude.pitch_error_rad
        yield column


def _floor(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> NDArray[np.float64]:
    stations = [support.station_m for support in supports.values()]
    pair = FLOOR * attitudes[0].net_kg, FLOOR * (max(stations) - min(stations))
    return np.diag(np.tile(np.square(pair), len(attitudes)))


def _gain(design: NDArray[np.float64], scatter: NDArray[np.float64], floor: NDArray[np.float64]) -> NDArray[np.float64]:
    weights = np.linalg.inv(scatter + floor)
    return np.asarray(np.linalg.solve(design.T @ weights @ design, design.T @ weights), dtype=np.float64)


def _right(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> tuple[float, float]:
    """Return how far right the centre of gravity lies, all readings together, and its standard error [m]."""
    whole_kg = sum(attitude.net_kg for attitude in attitudes)
    readings = [(supports[name], reading) for a in attitudes for name, reading in a.readings.items()]
    right_m = sum(support.buttline_m * reading.net_kg for support, reading in readings) / whole_kg
    scales = ((support.buttline_m - right_m) * reading.mass_error_kg for support, reading in readings)
    places = (
        s.buttline_error_m * sum(a.readings[name].net_kg for a in attitudes if name in a.readings)
        for name, s in supports.items()
    )
    return right_m, hypot(*scales, *places) / whole_kg
