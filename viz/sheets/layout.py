"""The layout on paper: the section, its spars, the nodes and the struts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.layout import LayoutAnswer
    from viz.sheets.blocks import Block, Cell


def sheet(answer: LayoutAnswer) -> Iterator[Block]:
    """Yield the section, its spars, the nodes and the struts."""
    yield rows(
        say("Section {name}", name=answer.section),
        ["Quantity", "Value"],
        _section(answer),
        "Angle, slope and moment by thin-airfoil theory; measured slopes are 5 to 10 % less.",
    )
    spars = [
        (
            spar.name,
            _length("from_leading_edge_m", spar.from_leading_edge_m),
            _length("section_depth_m", spar.section_depth_m),
            _length("spar_depth_m", spar.spar_depth_m),
        )
        for spar in answer.spars
    ]
    yield rows("Spars", ["Spar", "From leading edge", "Section depth", "Deepest spar"], spars)
    nodes = [
        (
            node.name,
            _length("station_m", node.station_m),
            _length("waterline_m", node.waterline_m),
            _length("buttline_m", node.buttline_m),
        )
        for node in answer.nodes
    ]
    yield rows("Nodes, right side", ["Node", "Station", "Waterline", "Buttline"], nodes)
    struts = [(strut.name, _length("strut_length_m", strut.length_m)) for strut in answer.members]
    yield rows("Struts, pin to pin", ["Strut", "Length"], struts, *answer.remarks)
    yield say("Next: whirlgate balance, the centre of gravity with the wing here.")


def _length(name: str, number: float) -> Value:
    return Value(name, number, decimals=2)


def _section(answer: LayoutAnswer) -> Iterator[tuple[str, Cell]]:
    yield "chord", _length("section_chord_m", answer.chord_m)
    yield (
        "greatest depth",
        say(
            "{depth} at {place}",
            depth=_length("section_depth_m", answer.section_depth_m),
            place=_length("deepest_from_leading_edge_m", answer.deepest_from_leading_edge_m),
        ),
    )
    yield "area", Value("section_area_m2", answer.section_area_m2)
    yield (
        "centroid of the area, aft of the leading edge",
        _length("centroid_from_leading_edge_m", answer.centroid_from_leading_edge_m),
    )
    yield "centroid of the area, above the chord", _length("centroid_above_chord_m", answer.centroid_above_chord_m)
    yield "zero-lift angle", Value("zero_lift_deg", answer.zero_lift_deg, decimals=2)
    yield "lift slope, per radian", Value("lift_slope", answer.lift_slope, decimals=3)
    yield "moment about the quarter chord", Value("pitch_quarter_chord", answer.pitch_quarter_chord, decimals=4)
