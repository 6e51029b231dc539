"""One airplane with each of its powerplants, its gun line and its display: what every study is asked about."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from sim.aerodynamics.cg_transfer import given_about_moved_cg
from sim.aerodynamics.derivative import overridden
from sim.aerodynamics.derivatives import estimate
from sim.aerodynamics.tail_parts import tail_parts
from sim.errors import one_of, refuse
from sim.model import airframe as airframes
from sim.model.airplane import flying_airplane, level_lift
from sim.model.controls import control_system
from sim.model.drag_model import DragModel
from sim.model.drawn_model import DrawnModel
from sim.model.gun import GunModel
from sim.model.mass import MassModel
from sim.model.powerplant import powerplant as build_powerplant
from sim.model.slipstream import propeller_disc, slipstream
from sim.model.strips import strips_for
from sim.model.structure_model import StructureModel
from sim.model.wing import wing as build_wing
from sim.scenario.reading import DEMO, load

if TYPE_CHECKING:
    import os
    from collections.abc import Iterable, Mapping

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Item
    from sim.airframe.wing import Wing
    from sim.flight.many_airplanes import Uncertainty
    from sim.model.airplane import FlyingAirplane
    from sim.model.drag import DragEstimate
    from sim.model.flown_mass import FlownMass
    from sim.model.mount import Mount
    from sim.model.plausibility.propeller import Clearance
    from sim.model.plausibility.remark import Remark
    from sim.model.plausibility.remarks import Topic
    from sim.model.plausibility.supports import Stance
    from sim.model.powerplant import EngineKind, Powerplant
    from sim.model.weights import Weights
    from sim.scenario.tables import Scenario
    from sim.synchronizer.gun_line import GunLine


class Model(GunModel, MassModel, DragModel, StructureModel, DrawnModel):
    """Everything of a scenario that flies, spins, is timed or cut, each part built once, when first asked for.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    remarked : bool
        Whether answers carry remarks; a sweep asks for thousands, and nobody reads them there.
    as_second_gun : bool
        Whether the scenario is one as a second gun sees it, see `sim.model.second_gun`.

    Notes
    -----
    A part whose table the scenario lacks raises `InputError` when it is asked for, so that a study needs no more of
    the file than its question does. What few questions need is imported with them, for a quick start.
    """

    def __init__(self, scenario: Scenario, *, remarked: bool = True, as_second_gun: bool = False) -> None:
        self._scenario, self._remarked, self._as_second_gun = scenario, remarked, as_second_gun
        self._airplanes: dict[tuple[str, float, float], FlyingAirplane] = {}
        self._gun_lines: dict[str, GunLine] = {}
        self._weights: dict[str, Weights] = {}
        self._stood_states: dict[str, MassState] = {}
        self._states: dict[str, MassState] = {}
        self._flown: dict[str, FlownMass] = {}
        self._polars: dict[str, Polar] = {}
        self._drag_estimates: dict[str, DragEstimate] = {}
        self._cg_ranges: dict[str, tuple[float, float]] = {}

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

    @cached_property
    def powerplants(self) -> Mapping[str, Powerplant]:
        """Every powerplant by its name, in the order of the file."""
        return {
            name: build_powerplant(name, table, self._scenario.gun) for name, table in self._scenario.powerplant.items()
        }

    @property
    def engine_kinds(self) -> dict[str, EngineKind]:
        """Kind of every powerplant by its name, in the order of the file."""
        return {name: one.kind for name, one in self.powerplants.items()}

    @cached_property
    def wing(self) -> Wing:
        """Geometry of the wing, plane by plane."""
        return build_wing(self._scenario.wing, lambda: self.thin_airfoil)

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
    def mount(self) -> Mount:
        """The engine mount with every powerplant on it."""
        from sim.model.mount import mount

        return mount(self._scenario, self.powerplants, self.usual_powerplant().name, self._listed_items)

    def with_engine_moved(self, powerplant: str, move_m: float) -> Model:
        """Return the model with an engine, and all that moves with it, `move_m` farther aft [m]; itself for 0."""
        return self if move_m == 0.0 else self.with_engine_at(powerplant, self.engine_move_m(powerplant) + move_m)

    def with_engine_at(self, powerplant: str, move_m: float) -> Model:
        """Return the model with an engine `move_m` aft of where it is drawn, as if its key ``move`` said so [m]."""
        engines = self._scenario.powerplant
        moved = engines[powerplant].model_copy(update={"move_m": move_m})
        scenario = self._scenario.model_copy(update={"powerplant": {**engines, powerplant: moved}})
        found = Model(scenario, remarked=self._remarked)
        found._stood_states = self._stood_states  # of the engines where they are drawn
        return found

    @cached_property
    def target_error_m(self) -> float:
        """Standard error of the station of the wanted centre of gravity, by the ± of wing, layout and target [m]."""
        from sim.model.target_error import target_error_m

        def target_m(scenario: Scenario) -> float:
            model = Model(scenario, remarked=False)
            return model.mean_chord.station_m(model.limits.target)

        return target_error_m(self._scenario, target_m)

    def _listed_items(self, powerplant: str) -> tuple[Item, ...] | None:
        return self.mass_state(powerplant).items if self.has_list(powerplant) else None

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
        mass = self.flown_mass(powerplant.name)
        polar = self.polar_with(powerplant.name)
        placed = powerplant.about(thrust_arm_m=mass.thrust_arm_m, propeller_arm_m=mass.propeller_arm_m)
        lift = level_lift(polar, mass_kg=mass.body.mass_kg, speed_m_s=speed_m_s, altitude_m=altitude_m)
        estimated = estimate(self.airframe, polar, lift=lift, cg_aft_m=mass.cg_aft_m)
        given = given_about_moved_cg(self._scenario.derivatives.given(), estimated, polar, mass.cg_aft_m)
        parts = tail_parts(self.airframe, polar, lift=lift, cg_aft_m=mass.cg_aft_m).of_given(estimated, given)
        return flying_airplane(
            mass.body,
            polar,
            placed,
            derivatives=overridden(estimated, given),
            disc=propeller_disc(placed),
            slipstream=slipstream(self.airframe, polar, placed, parts=parts, lift=lift, cg_aft_m=mass.cg_aft_m),
            lift=lift,
            travel=airframes.travel(self._scenario),
            controls=control_system(self._scenario, self.airframe, polar),
            speed_m_s=speed_m_s,
            altitude_m=altitude_m,
            strips=strips_for(self, self._scenario, powerplant.name),
            dive_m_s=None if (structure := self._scenario.structure) is None else structure.dive_speed_m_s,
        )

    def airplanes(
        self, *, speed_m_s: float | None = None, altitude_m: float | None = None
    ) -> tuple[FlyingAirplane, ...]:
        """Return the airplane with each of its powerplants, in the order of the file; arguments as for `airplane`."""
        return tuple(self.airplane(name, speed_m_s=speed_m_s, altitude_m=altitude_m) for name in self.powerplants)

    def uncertainty(self, flying: FlyingAirplane) -> Uncertainty:
        """Return how well an airplane of this model is known: derivatives, mass, CG, rotor, polar, propeller."""
        from sim.flight.many_airplanes import Uncertainty
        from sim.model.powerplant_errors import inertia_error, power_error
        from sim.model.slipstream import SLIPSTREAM_ERROR, SWIRL_ERROR, immersed_errors
        from sim.propulsion.disc import DISC_ERROR
        from sim.propulsion.propeller_fit import ERRORS

        mass, bands = self.flown_mass(flying.name), self.polar_bands(flying.name)
        return Uncertainty(
            derivatives=flying.derivatives,
            lift=flying.lift,
            mass_error_kg=mass.mass_error_kg,
            cg_error_m=mass.cg_error_m or 0.0,
            inertia_error=inertia_error(self._scenario, flying.name),
            body_inertia_errors=mass.body_inertia_errors,
            torque_error=power_error(self._scenario, flying.name),
            polar_errors={
                "drag_zero_lift": bands.drag_zero_lift_band,
                "span_efficiency": bands.span_efficiency_band,
                "lift_max": bands.lift_max_band,
            },
            propeller_errors=ERRORS,
            slipstream_error=SLIPSTREAM_ERROR,
            swirl_error=SWIRL_ERROR,
            disc_error=DISC_ERROR,
            immersed_errors=immersed_errors(flying.airplane.slipstream, flying.airplane.polar, flying.derivatives),
        )

    def stance(self) -> Stance | None:
        """Return how the airplane stands on its wheels; None where the scenario does not say."""
        from sim.model.plausibility.remark import Examined
        from sim.model.plausibility.supports import stance

        return stance(Examined(self._scenario, self))

    def propeller_clearance(self, powerplant: str) -> Clearance | None:
        """Return how high a propeller turns above the ground; None where the scenario does not say how it stands."""
        from sim.model.plausibility.propeller import clearance
        from sim.model.plausibility.remark import Examined

        return clearance(Examined(self._scenario, self), powerplant)

    def remarks(self, topic: Topic | None = None) -> tuple[Remark, ...]:
        """Return what is unusual about the scenario, all of it or what concerns one study."""
        from sim.model.plausibility.remark import Examined
        from sim.model.plausibility.remarks import remarks

        return tuple(remarks(Examined(self._scenario, self), topic))

    def remark_texts(self, topic: Topic, powerplant: str | None = None) -> tuple[str, ...]:
        """Return the sentences of the remarks that concern one study; with a powerplant none on another one's keys."""
        if not self._remarked:
            return ()
        others = tuple(f"powerplant.{name}." for name in self.powerplants if powerplant not in (None, name))
        return tuple(remark.text for remark in self.remarks(topic) if not remark.key.startswith(others))


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
