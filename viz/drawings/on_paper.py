"""Metres of a three-view as millimetres of paper, and its numbers as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.studies.drawing_answer import MarkedPlace
    from viz.drawings.marks import Point
    from viz.sheets.format import Units


def paper(point: Point, scale: float) -> Point:
    """Return a point of a view [m] on paper [mm]."""
    return mm(point[0]) * scale, mm(point[1]) * scale


def place_on(one: MarkedPlace, scale: float) -> Point:
    """Return a marked place on the paper of its view [mm]."""
    across_m = one.station_m if one.view == "side" else -one.buttline_m
    return paper((across_m, one.waterline_m), scale)


def length_text(length_m: float, units: Units) -> str:
    """Return a dimension as a shop reads it: feet and inches, or millimetres."""
    return text_of(Value("drawn_m", length_m, decimals=1, tape=True), units)


def place_text(one: MarkedPlace, units: Units) -> str:
    """Return the station of a place of the side view, the buttline of one of the front view."""
    name, number = ("station_m", one.station_m) if one.view == "side" else ("buttline_m", one.buttline_m)
    return text_of(Value(name, number, decimals=2 if units == "us" else 1), units)
