"""A three-view of an airplane: its lines, dimensions and marked places, all in metres."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Literal

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    from sim.airframe.projection import Flat, ThreeViewSide, ViewName

Where = Literal["above", "below", "left", "right", "along"]
"""Side of the view on which a dimension stands; ``along``: beside what it measures."""


@dataclass(frozen=True, slots=True)
class DrawnDimension:
    """A dimension of one view.

    Attributes
    ----------
    name : str
        In words.
    key : str
        Key of the scenario that says it; empty for what follows from several.
    view : str
        ``plan``, ``side`` or ``front``.
    drawn_m : float
        [m]
    between_m : pair of (right, up)
        Its ends on the view, as far apart in its direction as its length. [m]
    where : str
        Where it stands.
    """

    name: str
    key: str
    view: ViewName
    drawn_m: float
    between_m: tuple[Flat, Flat] = field(metadata=ASIDE)
    where: Where = field(default="along", metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class MarkedPlace:
    """A place with its station in the side view, or with its buttline in the front view.

    Attributes
    ----------
    name, key, view
        As for `DrawnDimension`.
    station_m, waterline_m, buttline_m : float
        [m]
    """

    name: str
    key: str
    view: ViewName
    station_m: float
    waterline_m: float
    buttline_m: float


@dataclass(frozen=True, slots=True)
class ComparedReading:
    """A dimension of the scenario, and what caliper readings off a drawing say of it.

    Attributes
    ----------
    name : str
        Its key.
    drawn_m : float
        By the scenario. [m]
    read_m, error_m : float
        Best value by the readings, and its standard error; not-a-number where readings contradict each other. [m]
    read_less_drawn_m : float
        The second less the first. [m]
    normalised_residual : float or None
        That over its standard error, with the ± of the scenario; None where neither has one.
    differs : bool
        Whether the two differ beyond what their errors explain: by more than 3.29 standard errors, 1 in 1000 by chance.
    shown : bool
        Whether it stands in one of the three views.
    """

    name: str
    drawn_m: float
    read_m: float
    error_m: float
    read_less_drawn_m: float
    normalised_residual: float | None
    differs: bool
    shown: bool


@dataclass(frozen=True, slots=True)
class DrawingAnswer(Answer):
    """A three-view of an airplane with one of its engines.

    Attributes
    ----------
    title, powerplant : str
        Which airplane, and which engine is in it.
    dimensions : tuple of DrawnDimension
        Every dimension drawn.
    places : tuple of MarkedPlace
        Every station and buttline drawn.
    forward_limit_station_m, aft_limit_station_m : float or None
        Limits of the centre of gravity; None where the scenario has none, or no item list with this engine. [m]
    foremost_cg_station_m, aftmost_cg_station_m : float or None
        Of all loadings, likewise. [m]
    level_clearance_m, standing_clearance_m : float or None
        Propeller above the ground, airplane level and on all wheels; None where the scenario does not say. [m]
    pitch_deg : float or None
        Attitude on all wheels, nose up positive. [°]
    readings_title : str
        Of the drawing whose readings are laid over it; empty where none are.
    readings : tuple of ComparedReading
        Each dimension that was read and is one of the scenario.
    views : tuple of ThreeViewSide
        Lines and circles of plan, side and front view; in files and figures alone, not in JSON.
    notes : tuple of str
        How to read it: what is assumed, and what is not drawn.
    remarks : tuple of str
        What is unusual about the scenario.
    """

    main: ClassVar[str] = "dimensions"

    title: str
    powerplant: str
    dimensions: tuple[DrawnDimension, ...]
    places: tuple[MarkedPlace, ...]
    forward_limit_station_m: float | None
    aft_limit_station_m: float | None
    foremost_cg_station_m: float | None
    aftmost_cg_station_m: float | None
    level_clearance_m: float | None
    standing_clearance_m: float | None
    pitch_deg: float | None
    readings_title: str
    readings: tuple[ComparedReading, ...]
    views: tuple[ThreeViewSide, ...] = field(metadata=ASIDE)
    notes: tuple[str, ...]
    remarks: tuple[str, ...]

    def sizes_m(self) -> dict[str, float]:
        """Return span, that of the widest plane, length and, where the ground is given, height, by name [m]."""
        drawn = {one.name: one.drawn_m for one in self.dimensions}
        spans = [size_m for name, size_m in drawn.items() if name.split(",")[0] == "span"]
        found = {"span": max(spans), "length": drawn["overall length"]}
        return found | ({"height": drawn["height, level"]} if "height, level" in drawn else {})
