"""What a drawing is made from: where wing, body, tail, engine and wheels of a model stand."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin
from typing import TYPE_CHECKING

from sim.aerodynamics.airframe_flow import body_ends_m
from sim.airframe.body_outline import Body, TailSurface
from sim.airframe.loading import PASSENGER, PILOT
from sim.airframe.masses import total

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.airframe.fittings import Fittings
    from sim.airframe.layout import SparRoom
    from sim.airframe.masses import Item
    from sim.model.layout import WingLayout
    from sim.model.model import Model
    from sim.model.plausibility.supports import Stance

SITTING = (PILOT, PASSENGER)
"""Groups of items that sit."""
STERN_SHARE = 0.2
"""Depth of the fuselage at the stern over its full depth, as drawn: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Disc:
    """Where a propeller turns.

    Attributes
    ----------
    station_m, waterline_m : float
        Of its hub. [m]
    diameter_m : float
        [m]
    tilt_rad : float
        Of its shaft, nose up positive. [rad]
    """

    station_m: float
    waterline_m: float
    diameter_m: float
    tilt_rad: float

    def tip(self, up: float) -> tuple[float, float]:
        """Return station and waterline of the highest (1) or the lowest (-1) tip [m]."""
        reach_m = 0.5 * up * self.diameter_m
        return self.station_m + reach_m * sin(self.tilt_rad), self.waterline_m + reach_m * cos(self.tilt_rad)


@dataclass(frozen=True, slots=True)
class DrawnFrame:
    """Everything that a drawing is made from.

    Attributes
    ----------
    powerplant : str
        The engine in it.
    layout, rooms, fitted
        Place of the wing, its spars plane by plane, and its fittings, struts and wires.
    body, tailplane, fin
        Their outlines.
    disc : Disc or None
        None where the scenario does not place it.
    engine_station_m : float or None
        Of its centre of gravity; None where the scenario does not say. [m]
    cg_station_m, cg_waterline_m : float or None
        Loaded centre of gravity; the height is None without an item list. [m]
    items : tuple of Item
        Who and what is aboard.
    stance : Stance or None
        How it stands on its wheels.
    """

    powerplant: str
    layout: WingLayout
    rooms: list[list[SparRoom]]
    fitted: Fittings
    body: Body
    tailplane: TailSurface
    fin: TailSurface
    disc: Disc | None
    engine_station_m: float | None
    cg_station_m: float | None
    cg_waterline_m: float | None
    items: tuple[Item, ...]
    stance: Stance | None


def drawn_frame(model: Model, powerplant: str) -> DrawnFrame:
    """Return what a drawing of an airplane with one of its engines is made from.

    Raises
    ------
    InputError
        When the table section or layout is missing.
    NoAnswerError
        When a spar does not fit.
    """
    layout = model.layout
    rooms, fitted = layout.fitted()
    engine, listed = model.powerplant(powerplant), model.has_list(powerplant)
    disc_m = engine.propeller.station_m
    tilt_rad, drawn = engine.shaft_tilt_rad, model.thrust_line_given
    items = model.items_drawn(powerplant)
    station_m, waterline_m = _key_place(model)
    tailplane, fin = _tail(model, station_m, waterline_m)
    whole = total(model.mass_state(powerplant).items) if listed else None
    return DrawnFrame(
        powerplant=powerplant,
        layout=layout,
        rooms=rooms,
        fitted=fitted,
        body=_body(model, station_m, fin, items),
        tailplane=tailplane,
        fin=fin,
        disc=Disc(disc_m, model.thrust_line_m, engine.propeller.diameter_m, tilt_rad)
        if drawn and disc_m is not None
        else None,
        engine_station_m=engine.station_m if drawn else None,
        cg_station_m=whole.cg_station_m if whole else model.flown_mass(powerplant).cg_station_m,
        cg_waterline_m=whole.cg_waterline_m if whole else None,
        items=items,
        stance=model.stance(),
    )


def _key_place(model: Model) -> tuple[float, float]:
    """Return station and waterline of the centre of gravity that arms and heights of the tail are measured from [m].

    The station is that of the keys; for the height the item list with the usual engine serves, else the shaft and the
    arm of its thrust, else the middle between the longerons.
    """
    usual, truss = model.usual_powerplant(), model.layout.truss
    station_m = model.key_station_m or 0.0
    if model.has_list(usual.name):
        return station_m, total(model.weights(usual.name).items).cg_waterline_m
    if model.thrust_line_given:
        return station_m, model.thrust_line_m + usual.thrust_arm_m
    return station_m, 0.5 * (truss.lower_longeron_waterline_m + truss.upper_longeron_waterline_m)


def _tail(model: Model, station_m: float, waterline_m: float) -> tuple[TailSurface, TailSurface]:
    tail, fin = model.airframe.tailplane, model.airframe.fin
    return TailSurface(
        station_m + tail.arm_m,
        waterline_m + tail.height_m,
        tail.span_m,
        tail.chord_m,
        hinge_share=1.0 - tail.flap_share,
        incidence_rad=tail.incidence_rad,
    ), TailSurface(
        station_m + fin.arm_m,
        waterline_m + fin.height_m,
        fin.span_m,
        fin.chord_m,
        hinge_share=1.0 - fin.flap_share,
        upright=True,
    )


def _body(model: Model, station_m: float, fin: TailSurface, items: Iterable[Item]) -> Body:
    """Return the fuselage: about the middle between the longerons, full to behind who sits in it, up to the fin."""
    frame, truss = model.airframe, model.layout.truss
    fore_m, aft_m = (station_m + end_m for end_m in body_ends_m(frame))
    middle_m = 0.5 * (truss.lower_longeron_waterline_m + truss.upper_longeron_waterline_m)
    foot_m = fin.at(0.0, -1.0)[1]
    bottom_m, top_m = middle_m - 0.5 * frame.body_depth_m, middle_m + 0.5 * frame.body_depth_m
    stern_top_m = min(max(foot_m, bottom_m + STERN_SHARE * frame.body_depth_m), top_m)
    seats_m = [item.station_m + 0.5 * item.length_m for item in items if item.group in SITTING]
    full_m = max([station_m + 0.5 * frame.wing.nominal.chord_m, *seats_m])
    return Body(
        nose_m=fore_m,
        full_to_m=min(max(fore_m, full_m), aft_m),
        stern_m=aft_m,
        bottom_m=bottom_m,
        top_m=top_m,
        stern_bottom_m=stern_top_m - STERN_SHARE * frame.body_depth_m,
        stern_top_m=stern_top_m,
        width_m=frame.body_width_m,
    )
