"""What of an airplane drags and lifts: its polar with each powerplant, as stated or built up from its parts."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from sim.airframe.section import thin_airfoil
from sim.model.wing import airfoil, polar_bands
from sim.model.wing import polar as build_polar

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar, PolarBands
    from sim.airframe.section import ThinAirfoil
    from sim.airframe.wing import Wing
    from sim.model.drag import DragEstimate
    from sim.model.flown_mass import FlownMass
    from sim.model.powerplant import Powerplant
    from sim.scenario.tables import Scenario


class DragModel:
    """What of a model drags and lifts; `sim.model.model.Model` is one."""

    _scenario: Scenario
    _polars: dict[str, Polar]
    _drag_estimates: dict[str, DragEstimate]

    @property
    def speed_m_s(self) -> float:
        """Airspeed of the flight table. [m/s]."""
        raise NotImplementedError

    @property
    def altitude_m(self) -> float:
        """Altitude of the flight table. [m]."""
        raise NotImplementedError

    @property
    def wing(self) -> Wing:
        """Geometry of the wing, plane by plane."""
        raise NotImplementedError

    @property
    def airframe(self) -> Airframe:
        """Geometry of wing, tail and fuselage."""
        raise NotImplementedError

    def flown_mass(self, powerplant: str) -> FlownMass:
        """Return mass, centre of gravity and inertia that the airplane flies with."""
        raise NotImplementedError

    def usual_powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name; for None that of the balance table, else the first of the file."""
        raise NotImplementedError

    @cached_property
    def thin_airfoil(self) -> ThinAirfoil | None:
        """What thin-airfoil theory says of the section of the wing; None where the scenario has no outline of it."""
        section = airfoil(self._scenario.section)
        return thin_airfoil(section) if section else None

    @cached_property
    def polar(self) -> Polar:
        """Lift and drag of the airplane with its usual powerplant."""
        return self.polar_with(self.usual_powerplant().name)

    def polar_with(self, powerplant: str) -> Polar:
        """Return lift and drag of the airplane; the tail's load at the stall is that of the powerplant's own mass."""
        if powerplant not in self._polars:
            estimate = partial(self.drag_estimate, powerplant)
            self._polars[powerplant] = build_polar(
                self._scenario,
                self.wing,
                lambda: self.thin_airfoil,
                estimate=estimate,
                lattice=self._lift_at_zero,
            )
        return self._polars[powerplant]

    def _lift_at_zero(self, zero_lift_rad: float) -> float:
        from sim.aerodynamics.airframe_flow import lift_at_zero

        return lift_at_zero(self.airframe, zero_lift_rad)

    def polar_bands(self, powerplant: str) -> PolarBands:
        """Return how well lift and drag of the airplane with a powerplant are known."""
        return polar_bands(self._scenario, partial(self.drag_estimate, powerplant))

    def drag_estimate(self, powerplant: str | None = None) -> DragEstimate:
        """Return drag and greatest lift built up from the parts of the airplane, whatever the scenario states.

        Reynolds numbers are those of the flight table, and of the stall at sea level with the powerplant's own mass;
        None for the usual powerplant.
        """
        name = self.usual_powerplant(powerplant).name
        if name not in self._drag_estimates:
            from sim.model.drag import drag_estimate

            mass = self.flown_mass(name)
            self._drag_estimates[name] = drag_estimate(
                self._scenario,
                self.wing,
                name,
                mass_kg=mass.body.mass_kg,
                cg_aft_m=mass.cg_aft_m,
                speed_m_s=self.speed_m_s,
                altitude_m=self.altitude_m,
            )
        return self._drag_estimates[name]

    @property
    def drag_stated(self) -> Mapping[str, float | None]:
        """What the scenario states of drag and lift, by the name of the field of the polar; None where it does not."""
        drag, lift = self._scenario.drag, self._scenario.lift
        return {"drag_zero_lift": drag.zero_lift, "span_efficiency": drag.span_efficiency, "lift_max": lift.max}
