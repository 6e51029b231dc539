"""A drawing file: caliper readings off a drawing and the dimensions known from documents, in a TOML of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema, field_validator

from sim.errors import InputError, one_of
from sim.scenario.bundled import fetch
from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.scenario.reading import read_table
from sim.units.parsing import Measured, read

if TYPE_CHECKING:
    import os
    from collections.abc import Collection, Iterable, Iterator

SHELF = "drawings"
ON_PAPER = Given("m", "on paper, with or without its ±", above=0.0, most=100.0, example="14.02 in ± 0.01 in")
AS_WRITTEN = {"type": "string", "minLength": 1}
REAL = Given("m", "real size, with or without its ±", above=0.0, most=1000.0, example="28 ft 1 in ± 1/4 in")


def _all_measured(values: object) -> tuple[Measured, ...]:
    """Return the readings of a list, or of a single one."""
    rows = values if isinstance(values, list) else [values]
    if not rows:
        told(("", 'must hold at least one reading, as in "14.02 in"'))
    return tuple(ON_PAPER.measured(row) for row in rows)


def _flat(table: object) -> object:
    """Return known dimensions by dotted name: ``wing.span`` may be written with or without quotes."""
    if not isinstance(table, dict):
        return table
    found, faults = dict[str, Measured](), []
    for name, value in _leaves(table):
        try:
            found[name] = read(value, REAL.allowed, key="")
        except InputError as error:
            faults.append(("", f"{name} {error.faults[0].what}"))
    if faults:
        told(*faults)
    return found


def _leaves(table: dict[str, Any], way: str = "") -> Iterator[tuple[str, object]]:
    for key, value in table.items():
        name = f"{way}.{key}" if way else key
        if isinstance(value, dict):
            yield from _leaves(value, name)
        else:
            yield name, value


class ViewTable(ScenarioTable):
    """One view on one sheet."""

    one_scale: Annotated[
        bool, Field(strict=True, description="the sheet has not stretched: along and across have one scale")
    ] = False


class DrawingReadingTable(ScenarioTable):
    """Caliper readings of one dimension in one view."""

    dimension: Annotated[
        str,
        ShortText(
            "what was measured; a scenario key by its name (wing.span, item.pilot.station) can be written",
            example="wing.span",
        ),
    ]
    view: Annotated[str, ShortText("which view", example="plan", most=40)]
    axis: Annotated[
        Literal["along", "across"], ShortText("along or across the sheet of that view", ("along", "across"))
    ]
    values: Annotated[
        tuple[Measured, ...],
        BeforeValidator(_all_measured),
        WithJsonSchema({"anyOf": [AS_WRITTEN, {"type": "array", "items": AS_WRITTEN, "minItems": 1}]}),
        Field(description="Readings on paper, each with its unit.", examples=[[ON_PAPER.example]]),
    ]


class DrawingTable(ScenarioTable):
    """A drawing to be scaled."""

    title: Annotated[str, ShortText("what it is", example="three-view, enlarged twice", most=80)]
    note: Annotated[str, ShortText("anything to remember", example="copy of a copy", most=1000)] = ""
    reading_error_m: Annotated[
        float | None, Given("m", "standard error of a reading without its own ±", above=0.0, most=0.1, example="0.1 mm")
    ] = None
    distortion: Annotated[
        float | None,
        Given(
            "1",
            "local distortion of the paper, one standard deviation as a fraction of length; without it estimated",
            least=0.0,
            most=0.1,
            example="0.002",
        ),
    ] = None
    view: Annotated[dict[str, ViewTable], Field(default_factory=dict, description="Views by a name of your own.")]
    known: Annotated[
        dict[str, Measured],
        BeforeValidator(_flat),
        WithJsonSchema({"type": "object", "minProperties": 1, "additionalProperties": {"type": ["string", "object"]}}),
        Field(
            min_length=1,
            description="Dimensions from documents, dotted or in tables, each with its unit.",
            examples=[{"wing": {"span": REAL.example}}],
        ),
    ]
    reading: Annotated[list[DrawingReadingTable], Field(min_length=1, description="One for each dimension and view.")]

    @classmethod
    def foreign(cls, keys: Collection[str]) -> str | None:
        """Return that a file is a scenario, by its tables."""
        scenario = {"airplane", "powerplant"} & set(keys) and not {"known", "reading"} & set(keys)
        return "is a scenario, not a drawing, which has the tables known and reading" if scenario else None

    @field_validator("reading")
    @classmethod
    def _of_known_views(cls, readings: list[DrawingReadingTable], info: ValidationInfo) -> list[DrawingReadingTable]:
        views, seen = info.data.get("view"), set[tuple[str, str, str]]()
        for number, reading in enumerate(readings, start=1):
            if views and reading.view not in views:
                told(("", f"view of number {number} {one_of(views, reading.view)}"))
            place = (reading.dimension, reading.view, reading.axis)
            if place in seen:
                told(("", f"number {number} reads {reading.dimension} {reading.axis} {reading.view} a second time"))
            seen.add(place)
        return readings


def load(path_or_name: str | os.PathLike[str], settings: Iterable[str] = ()) -> DrawingTable:
    """Return the drawing in a file, or the bundled one of that name.

    Parameters
    ----------
    path_or_name : str or path
        A TOML file, or a name such as ``tollgate``.
    settings : iterable of str
        ``table.key=value`` each.

    Raises
    ------
    InputError
        With every fault at once.
    """
    file = fetch(path_or_name, SHELF)
    return read_table(file.text, DrawingTable, called=file.called, settings=settings)[0]
