"""Where the wing of an airplane stands on its fuselage, and the structure that carries it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.airframe.wing import Wing
    from sim.model.layout import WingLayout
    from sim.model.structure import WingStructure
    from sim.scenario.tables import Scenario


class StructureModel:
    """Layout and structure of a model's wing; `sim.model.model.Model` is one."""

    _scenario: Scenario

    @property
    def wing(self) -> Wing:
        """Geometry of the wing, plane by plane."""
        raise NotImplementedError

    @cached_property
    def layout(self) -> WingLayout:
        """Place of the wing on the fuselage."""
        from sim.model.layout import wing_layout

        return wing_layout(self._scenario, self.wing)

    @cached_property
    def structure(self) -> WingStructure:
        """Spars, struts and wires of the wing."""
        from sim.model.structure import wing_structure

        return wing_structure(self._scenario, self.layout)
