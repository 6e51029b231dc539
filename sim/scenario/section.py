"""The table of a scenario for the section of the wing: its outline, and what was measured of it."""

from collections.abc import Callable
from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from sim.errors import InputError
from sim.scenario.fields import Given, ScenarioTable, ShortText, told

Coordinate = Annotated[float, Field(ge=-1e6, le=1e6, allow_inf_nan=False)]


class WingSectionTable(ScenarioTable):
    """The airfoil of the wing: a NACA number or a list of points; what was measured of it replaces its estimate."""

    naca: Annotated[str | None, ShortText("NACA number, four or five digits", example="2412", most=10)] = None
    points: Annotated[
        list[tuple[Coordinate, Coordinate]] | None,
        Field(description="x, y from the trailing edge over the upper to the lower surface and back, in any one unit."),
    ] = None

    @field_validator("naca")
    @classmethod
    def _digits(cls, naca: str | None) -> str | None:
        if naca is not None:
            from sim.airframe.section import digits

            _tell(lambda: digits(naca))
        return naca

    @field_validator("points")
    @classmethod
    def _outline(
        cls, points: list[tuple[float, float]] | None, info: ValidationInfo
    ) -> list[tuple[float, float]] | None:
        from sim.airframe.section import outline

        if points is not None and info.data.get("naca") is not None:
            told(("", "must not be given beside naca: one of the two says what the section is"))
        if points is not None:
            _tell(lambda: outline(points))
        return points

    laminar: Annotated[
        float,
        Given(
            "1", "share of the chord ahead of transition, of wing surfaces as built", least=0.0, most=0.7, example="0.1"
        ),
    ] = 0.1
    lift_max: Annotated[
        float | None,
        Given("1", "largest lift coefficient of the section as built", above=0.0, most=4.0, example="1.35"),
    ] = None
    drag_min: Annotated[
        float | None,
        Given("1", "least drag coefficient of the section as built", above=0.0, most=0.5, example="0.0105"),
    ] = None
    drag_rise: Annotated[
        float | None,
        Given("1", "rise of drag for a unit of lift coefficient squared", least=0.0, most=1.0, example="0.006"),
    ] = None
    lift_best: Annotated[
        float | None, Given("1", "lift coefficient of least drag", least=-1.0, most=2.0, example="0.2")
    ] = None
    polar: Annotated[
        list[tuple[Coordinate, Coordinate, Coordinate]] | None,
        Field(
            description="Measured polar: incidence in degrees, lift and drag coefficient of plane flow, a row a point."
        ),
    ] = None

    @field_validator("polar")
    @classmethod
    def _polar(cls, polar: list[tuple[float, float, float]] | None) -> list[tuple[float, float, float]] | None:
        if polar is not None:
            from sim.aerodynamics.drag_section import measured_section

            _tell(lambda: measured_section(polar))
        return polar


def _tell(attempt: Callable[[], object]) -> None:
    """Turn a fault that the physics raises into one of this key."""
    try:
        attempt()
    except InputError as error:
        told(("", error.faults[0].what))
