"""One airplane with each of its powerplants, its gun line and its display: what every study is asked about."""

from __future__ import annotations

from functools import cache, cached_property
from typing import TYPE_CHECKING

from sim.aerodynamics.derivatives import overridden
from sim.airframe.mean_chord import wing_mean_chord
from sim.airframe.section import thin_airfoil
from sim.errors import one_of, refuse
from sim.model import airframe as airframes
from sim.model.airplane import derivatives_at, flying_airplane
from sim.model.gun import GunModel
from sim.model.powerplant import powerplant as build_powerplant
from sim.model.wing import airfoil
from sim.model.wing import polar as build_polar
from sim.model.wing import wing as build_wing
from sim.scenario.reading import DEMO, load

if TYPE_CHECKING:
    import os
    from collections.abc import Callable, Iterable, Mapping

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.airframe.loading import CgLimits
    from sim.airframe.mean_chord import MeanChord
    from sim.airframe.section import ThinAirfoil
    from sim.airframe.weighing_data import Weighing
    from sim.airframe.wing import Wing
    from sim.display.display import Display
    from sim.model.airplane import FlyingAirplane
    from sim.model.layout import WingLayout
    from sim.model.mount import Mount
    from sim.model.powerplant import Powerplant
    from sim.model.weights import Weights
    from sim.scenario.tables import Scenario
    from sim.synchronizer.gun_line import GunLine
    from sim.units.parsing import Measured


class Model(GunModel):
    """Everything of a scenario that flies, spins, is timed or cut, each part built once, when first asked for.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.

    Notes
    -----
    A part whose table the scenario lacks raises `InputError` when it is asked for, so that a study needs no more of
    the file than its question does. What few questions need is imported with them, for a quick start.
    """

    def __init__(self, scenario: Scenario) -> None:
        self._scenario = scenario
        self._airplanes: dict[tuple[str, float, float], FlyingAirplane] = {}
        self._gun_lines: dict[str, GunLine] = {}

    @property
    def title(self) -> str:
        """Name of the airplane."""
        return self._scenario.title

    @property
    def speed_m_s(self) -> float:
        """Airspeed of the flight table. [m/s]."""
        return self._scenario.flight.speed_m_s

    @property
    def altitude_m(self) -> float:
        """Altitude of the flight table. [m]."""
        return self._scenario.flight.altitude_m

    @property
    def gross_mass_kg(self) -> float:
        """Gross mass of the airplane table. [kg]."""
        return self._scenario.airplane.mass_kg

    @cached_property
    def powerplants(self) -> Mapping[str, Powerplant]:
        """Every powerplant by its name, in the order of the file."""
        return {name: build_powerplant(name, table) for name, table in self._scenario.powerplant.items()}

    @cached_property
    def wing(self) -> Wing:
        """Geometry of the wing, plane by plane."""
        return build_wing(self._scenario.wing, lambda: self._thin_airfoil)

    @cached_property
    def _thin_airfoil(self) -> ThinAirfoil | None:
        section = airfoil(self._scenario.section)
        return thin_airfoil(section) if section else None

    @cached_property
    def polar(self) -> Polar:
        """Lift and drag of the airplane."""
        return build_polar(self._scenario.drag, self._scenario.lift, self.wing, lambda: self._thin_airfoil)

    @cached_property
    def display(self) -> Display:
        """What the builder of the inert display specifies, with the firing windows that it shows."""
        from sim.model.display import display_of

        return display_of(self._scenario)

    @cached_property
    def airframe(self) -> Airframe:
        """Geometry of wing, tail and fuselage."""
        return airframes.airframe(self._scenario, self.wing)

    def powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name, or the first of the file.

        Raises
        ------
        InputError
            When there is none of that name.
        """
        known = self.powerplants
        if name is None:
            return next(iter(known.values()))
        if name not in known:
            refuse("powerplant", one_of(known, name))
        return known[name]

    def usual_powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name; for None that of the balance table, else the first of the file."""
        table = self._scenario.balance
        return self.powerplant(name or (table.powerplant if table else None))

    @cached_property
    def weights(self) -> Callable[[str], Weights]:
        """Everything that has mass in the loaded airplane, as a function of the powerplant's name."""
        from sim.model.weights import weights

        return cache(lambda powerplant: weights(self._scenario, powerplant))

    def can_balance(self, powerplant: str) -> bool:
        """Return whether there are limits, the place of the wing, and an item list with that powerplant."""
        placed = self._scenario.balance is not None and self._scenario.layout is not None
        return placed and self._listed(powerplant)

    def _listed(self, powerplant: str) -> bool:
        from sim.model.weights import listed

        return listed(self._scenario, powerplant)

    @cached_property
    def limits(self) -> CgLimits:
        """Limits of the centre of gravity, and who flies."""
        from sim.model.weighing import limits

        return limits(self._scenario)

    @cached_property
    def weighing(self) -> Weighing | None:
        """Readings of the scales under the airplane; None where it was not weighed."""
        table = self._scenario.weighing
        if table is None:
            return None
        from sim.model.weighing import weighing

        return weighing(self._scenario, table, self.weights(self.usual_powerplant(table.powerplant).name))

    @cached_property
    def flight_keys(self) -> Mapping[str, Measured]:
        """Mass, inertia and arms that the flights go by, by the key of the file, with their standard deviations."""
        from sim.model.weights import flight_keys

        return flight_keys(self._scenario)

    @property
    def thrust_line_m(self) -> float:
        """Waterline of engine and propeller. [m]."""
        from sim.model.weights import thrust_line_m

        return thrust_line_m(self._scenario)

    @cached_property
    def mean_chord(self) -> MeanChord:
        """Mean aerodynamic chord of the wing in stations, each plane weighted by its lift."""
        table = self._scenario.balance
        return self._mean_chord(table.lower_efficiency if table else 1.0)

    @property
    def quarter_chord_station_m(self) -> float:
        """Station of the quarter chord, mean of the planes by area, which the arms of the flights go by. [m]."""
        return self._mean_chord(1.0).station_m(0.25)

    def _mean_chord(self, lower_efficiency: float) -> MeanChord:
        from sim.model.layout import leading_edge_station_m

        return wing_mean_chord(self.wing, leading_edge_station_m(self._scenario), lower_efficiency=lower_efficiency)

    @cached_property
    def layout(self) -> WingLayout:
        """Place of the wing on the fuselage."""
        from sim.model.layout import wing_layout

        return wing_layout(self._scenario, self.wing)

    @cached_property
    def mount(self) -> Mount:
        """The engine mount with every powerplant on it."""
        from sim.model.mount import mount

        return mount(self._scenario, self.powerplants, self._listed_weights)

    def _listed_weights(self, powerplant: str) -> Weights | None:
        return self.weights(powerplant) if self._listed(powerplant) else None

    def airplane(
        self, powerplant: str | None = None, *, speed_m_s: float | None = None, altitude_m: float | None = None
    ) -> FlyingAirplane:
        """Return the airplane with one of its powerplants.

        Parameters
        ----------
        powerplant : str or None
            Name of the powerplant; None for the first of the file.
        speed_m_s, altitude_m : float or None
            Where the derivatives that change with lift and advance are estimated; None: the flight table's. [m/s, m]

        Raises
        ------
        InputError
            When there is no powerplant of that name, or the altitude lies outside the standard atmosphere.
        """
        fitted = self.powerplant(powerplant)
        speed = self.speed_m_s if speed_m_s is None else speed_m_s
        altitude = self.altitude_m if altitude_m is None else altitude_m
        key = (fitted.name, speed, altitude)
        if key not in self._airplanes:
            self._airplanes[key] = self._flying(fitted, speed, altitude)
        return self._airplanes[key]

    def _flying(self, powerplant: Powerplant, speed_m_s: float, altitude_m: float) -> FlyingAirplane:
        body = airframes.body(self._scenario)
        estimated = derivatives_at(
            self.airframe, self.polar, powerplant, mass_kg=body.mass_kg, speed_m_s=speed_m_s, altitude_m=altitude_m
        )
        return flying_airplane(
            body,
            self.polar,
            powerplant,
            derivatives=overridden(estimated, self._scenario.derivatives.given()),
            travel=airframes.travel(self._scenario),
            speed_m_s=speed_m_s,
            altitude_m=altitude_m,
        )

    def airplanes(
        self, *, speed_m_s: float | None = None, altitude_m: float | None = None
    ) -> tuple[FlyingAirplane, ...]:
        """Return the airplane with each of its powerplants, in the order of the file; arguments as for `airplane`."""
        return tuple(self.airplane(name, speed_m_s=speed_m_s, altitude_m=altitude_m) for name in self.powerplants)


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
