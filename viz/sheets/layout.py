"""The layout on paper: the section, its spars, the nodes, the struts and wires."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.layout import LayoutAnswer
    from viz.sheets.blocks import Block, Cell


SECTION = (
    "Zero-lift angle, slope and moment by thin-airfoil theory (moment: nose up positive); measured slopes are 5 to "
    "10 % lower."
)

SPARS = "Distance along the chord to the middle of the spar; spar depth: largest that fits between rib caps and cover."

MEMBERS = (
    "Length from pin to pin; angles from the vertical in the front and the side view, the upper end outboard and aft "
    "positive. Wires end at the middle of the pins of their fittings: take tangs and terminals off."
)


def sheet(answer: LayoutAnswer) -> Iterator[Block]:
    """Yield the section, its spars, the nodes, the struts and wires."""
    yield rows(
        say("Wing section {name}", name=answer.section),
        ["Quantity", "Value"],
        _section(answer),
        f"{SECTION} {answer.section_use}",
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
    yield rows("Spars", ["Spar", "From leading edge", "Section depth", "Spar depth"], spars, SPARS)
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
    if members := list(_members(answer)):
        yield rows("Struts and wires, right side", ["Member", "Length", "Front view", "Side view"], members, MEMBERS)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        say("{run}, three-view with stations and dimensions", run=Run("drawing")),
        say("{run}, centre of gravity, loading envelope and engine position", run=Run("balance")),
    )


def _members(answer: LayoutAnswer) -> Iterator[tuple[Cell, ...]]:
    for one in answer.members:
        angles = (Value(name, getattr(one, name), decimals=1) for name in ("front_view_deg", "side_view_deg"))
        yield one.name, _length("strut_length_m", one.length_m), *angles


def _length(name: str, number: float) -> Value:
    return Value(name, number, decimals=2)


def _section(answer: LayoutAnswer) -> Iterator[tuple[str, Cell]]:
    yield "chord", _length("section_chord_m", answer.chord_m)
    yield (
        "maximum depth, distance from the leading edge",
        say(
            "{depth}, {place}",
            depth=_length("section_depth_m", answer.section_depth_m),
            place=_length("deepest_from_leading_edge_m", answer.deepest_from_leading_edge_m),
        ),
    )
    yield "cross-section area", Value("section_area_m2", answer.section_area_m2)
    yield (
        "centroid, aft of the leading edge",
        _length("centroid_from_leading_edge_m", answer.centroid_from_leading_edge_m),
    )
    yield "centroid, above the chord line", _length("centroid_above_chord_m", answer.centroid_above_chord_m)
    yield "zero-lift angle of attack", Value("zero_lift_deg", answer.zero_lift_deg, decimals=2)
    yield "lift-curve slope, per radian", Value("lift_slope", answer.lift_slope, decimals=3)
    yield (
        "moment coefficient, quarter chord",
        Value("pitch_quarter_chord", answer.pitch_quarter_chord, decimals=4),
    )
