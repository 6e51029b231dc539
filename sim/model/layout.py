"""Where the wing of a scenario stands on the fuselage, in stations, waterlines and buttlines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.airframe.bracing import braced
from sim.airframe.fittings import FittingLines, fittings
from sim.airframe.layout import PlacedPlane, Spar, placed, spar_room
from sim.errors import Fault, InputError, refuse
from sim.model.wing import wing_section

if TYPE_CHECKING:
    from sim.airframe.fittings import Bracing, Fittings
    from sim.airframe.layout import SparRoom
    from sim.airframe.section import Airfoil
    from sim.airframe.wing import Wing
    from sim.scenario.layout import LayoutTable
    from sim.scenario.tables import Scenario


@dataclass(frozen=True, slots=True)
class WingLayout:
    """The wing on the fuselage, before the spars are fitted.

    Attributes
    ----------
    section : Airfoil
        Of the wing.
    chord_m : float
        Mean chord of a plane for which no other is given. [m]
    planes : tuple of PlacedPlane
        From the lowest up.
    spars : tuple of Spar
        To be fitted, from front to rear.
    truss : FittingLines
        Longerons and the places of the fittings.
    section_keys : tuple of str
        Keys that the scenario gives in the place of what this section has.
    """

    section: Airfoil
    chord_m: float
    planes: tuple[PlacedPlane, ...]
    spars: tuple[Spar, ...]
    truss: FittingLines
    section_keys: tuple[str, ...]

    def fitted(self) -> tuple[list[list[SparRoom]], Fittings]:
        """Return the spars in each plane, from the lowest up, and every fitting, strut and wire.

        Raises
        ------
        NoAnswerError
            When a spar does not fit.
        """
        rooms = [[spar_room(self.section, one.plane.chord_m, spar) for spar in self.spars] for one in self.planes]
        return rooms, braced(fittings(self.planes, rooms, self.truss), self.planes, rooms, self.truss)


def wing_layout(scenario: Scenario, wing: Wing) -> WingLayout:
    """Return the layout of a scenario's wing.

    Parameters
    ----------
    scenario : Scenario
        With the tables section and layout.
    wing : Wing
        Its planes.

    Raises
    ------
    InputError
        When one of the tables is missing, the bracing is not for so many planes, or feet are too many or too few.
    """
    section, table = wing_section(scenario), scenario.layout
    if table is None:
        refuse("layout", "is missing: the table with leading_edge, longerons and spars")
    given = [f"wing.{key}" for key in ("section_lift_slope", "section_moment") if key in scenario.wing.model_fields_set]
    given += ["lift.zero"] if scenario.lift.zero is not None else []
    return WingLayout(
        section=section,
        chord_m=wing.nominal.chord_m,
        planes=placed(wing, table.leading_edge_m, table.leading_edge_waterline_m),
        spars=tuple(Spar(row.name, row.fraction, row.width_m, row.cap_m, row.cover_m) for row in table.spar),
        truss=_lines(table, len(wing.planes)),
        section_keys=tuple(given),
    )


def _lines(table: LayoutTable, planes: int) -> FittingLines:
    """Return the places of the fittings and the bracing: as given, else wires, or lift struts of a monoplane."""
    usual: Bracing = "none" if not table.strut_buttline_m else "wires" if planes > 1 else "lift_struts"
    bracing = table.bracing or usual
    faults = [
        Fault(f"layout.{key}", f"must be one station, or one for each of the {len(table.spar)} spars, got {len(feet)}")
        for key, feet in (("cabane_feet", table.cabane_feet), ("lift_feet", table.lift_feet))
        if len(feet) not in {0, 1, len(table.spar)}
    ]
    if bracing == ("lift_struts" if planes > 1 else "wires"):
        allowed = f"wires or none with {planes} planes" if planes > 1 else "lift_struts or none of a monoplane"
        faults.append(Fault("layout.bracing", f'must be {allowed}, got "{bracing}"'))
    if faults:
        raise InputError(faults)
    return FittingLines(
        root_buttline_m=table.root_buttline_m,
        cabane_buttline_m=table.cabane_buttline_m,
        strut_buttlines_m=(*sorted(table.inner_struts), table.strut_buttline_m),
        upper_longeron_waterline_m=table.upper_longeron_m,
        lower_longeron_waterline_m=table.lower_longeron_m,
        strut_splay_m=table.strut_splay_m,
        cabane_foot_buttline_m=table.cabane_foot_buttline_m,
        cabane_foot_stations_m=tuple(table.cabane_feet),
        lift_foot_stations_m=tuple(table.lift_feet),
        cabane_shape=table.cabane_struts,
        strut_shape=table.interplane_struts,
        bracing=bracing,
    )
