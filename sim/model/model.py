"""One airplane with each of its powerplants, its gun line and its display: what every study is asked about."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from sim.errors import did_you_mean, refuse
from sim.model import airplane as airplanes
from sim.model.powerplant import spin
from sim.scenario.reading import DEMO, load

if TYPE_CHECKING:
    import os
    from collections.abc import Iterable, Mapping

    from sim.model.airplane import Flyable
    from sim.model.powerplant import Spin
    from sim.scenario.tables import Scenario


class Model:
    """Everything of a scenario that flies, spins, is timed or cut, each part built once, when first asked for.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.

    Notes
    -----
    A part whose table the scenario lacks raises `InputError` when it is asked for, so that a study needs no more of
    the file than its question does.
    """

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self._airplanes: dict[tuple[str, float, float], Flyable] = {}

    @property
    def title(self) -> str:
        """Name of the airplane."""
        return self.scenario.title

    @property
    def speed_m_s(self) -> float:
        """Airspeed of the flight table. [m/s]."""
        return self.scenario.flight.speed_m_s

    @property
    def altitude_m(self) -> float:
        """Altitude of the flight table. [m]."""
        return self.scenario.flight.altitude_m

    @cached_property
    def spins(self) -> Mapping[str, Spin]:
        """What turns in each powerplant, in the order of the file."""
        return {name: spin(name, table) for name, table in self.scenario.powerplant.items()}

    def named(self, powerplant: str) -> str:
        """Return the name of a powerplant of this airplane.

        Raises
        ------
        InputError
            When there is none of that name.
        """
        known = self.scenario.powerplant
        if powerplant not in known:
            refuse(
                "powerplant", f'must be one of {", ".join(known)}, got "{powerplant}"{did_you_mean(powerplant, known)}'
            )
        return powerplant

    def airplane(self, powerplant: str, *, speed_m_s: float | None = None, altitude_m: float | None = None) -> Flyable:
        """Return the airplane with one of its powerplants.

        Parameters
        ----------
        powerplant : str
            Name of the powerplant.
        speed_m_s, altitude_m : float or None
            Where the derivatives that change with lift and advance are estimated; None: the flight table's. [m/s, m]

        Raises
        ------
        InputError
            When there is no powerplant of that name, or the altitude lies outside the standard atmosphere.
        """
        speed = self.speed_m_s if speed_m_s is None else speed_m_s
        altitude = self.altitude_m if altitude_m is None else altitude_m
        key = (self.named(powerplant), speed, altitude)
        if key not in self._airplanes:
            self._airplanes[key] = airplanes.flyable(self.scenario, powerplant, speed_m_s=speed, altitude_m=altitude)
        return self._airplanes[key]

    def airplanes(self, *, speed_m_s: float | None = None, altitude_m: float | None = None) -> tuple[Flyable, ...]:
        """Return the airplane with each of its powerplants, in the order of the file; arguments as for `airplane`."""
        return tuple(
            self.airplane(name, speed_m_s=speed_m_s, altitude_m=altitude_m) for name in self.scenario.powerplant
        )


def model(scenario: Scenario | str | os.PathLike[str] = DEMO, settings: Iterable[str] = ()) -> Model:
    """Return the model of a scenario, of a file or of the bundled airplane of that name.

    Parameters
    ----------
    scenario : Scenario, str or path
        A loaded scenario, a TOML file, or a bundled name such as ``tollgate``.
    settings : iterable of str
        ``table.key=value`` each, for a scenario that is read here.

    Raises
    ------
    InputError
        With every fault of the file and the settings at once.
    """
    return Model(load(scenario, settings) if isinstance(scenario, str) or hasattr(scenario, "__fspath__") else scenario)
