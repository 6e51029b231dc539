"""The thrust that engine and fixed-pitch propeller have together at an airspeed, the shaft turning steadily."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.propulsion.engine_propeller import shaft_loads

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.propulsion.engine_propeller import Engine, Propeller

FULL = (0.0, 0.0, 0.0, 1.0, 0.0)
"""Controls at full throttle."""


def full_spin_rad_s(
    engine: Engine, propeller: Propeller, *, speed_m_s: float, density_kg_m3: float, most_rad_s: float
) -> float:
    """Return the size of the engine speed at full throttle, or the highest allowed where the pilot must throttle back.

    Parameters
    ----------
    engine, propeller : Engine, Propeller
        As the flights take them.
    speed_m_s, density_kg_m3 : float
        Airspeed along the shaft and air. [m/s, kg/m³]
    most_rad_s : float
        Full speed of the engine. [rad/s]
    """
    from scipy.optimize import brentq

    loads = shaft_loads(engine, propeller)

    def spare_n_m(size_rad_s: float) -> float:
        on = loads((engine.rotation * size_rad_s, speed_m_s), density_kg_m3, FULL)
        return float(engine.rotation * (on.engine - on.windage - propeller.ratio * on.propeller))

    if spare_n_m(most_rad_s) >= 0.0:
        return most_rad_s
    least = 1e-6 * most_rad_s
    return float(brentq(spare_n_m, least, most_rad_s, xtol=1e-12)) if spare_n_m(least) > 0.0 else least


def thrust_n(engine: Engine, propeller: Propeller, density_kg_m3: float, most_rad_s: float) -> Callable[[float], float]:
    """Return the greatest thrust [N] as a function of airspeed [m/s], the engine kept from passing a speed.

    Parameters
    ----------
    engine, propeller : Engine, Propeller
        As the flights take them.
    density_kg_m3 : float
        Air. [kg/m³]
    most_rad_s : float
        Speed of the engine not to be passed: full, or cruise. [rad/s]

    Notes
    -----
    The three-number propeller of `sim.propulsion.engine_propeller`: best efficiency as given, static thrust within
    some 15 %. Above the airspeed at which the propeller would drive the engine past that speed the pilot throttles
    back.
    """
    loads = shaft_loads(engine, propeller)

    def thrust(speed_m_s: float) -> float:
        size = full_spin_rad_s(
            engine, propeller, speed_m_s=speed_m_s, density_kg_m3=density_kg_m3, most_rad_s=most_rad_s
        )
        return float(loads((engine.rotation * size, speed_m_s), density_kg_m3, FULL).thrust)

    return thrust
