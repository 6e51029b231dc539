"""Drawing: a three-view of an airplane with one of its engines, from what its scenario says and nothing else."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from sim.airframe.projection import seen
from sim.errors import InputError, NoAnswerError
from sim.studies.drawing_answer import DrawingAnswer
from sim.studies.drawing_dimensions import dimensions
from sim.studies.drawing_frame import drawn_frame
from sim.studies.drawing_outline import outline
from sim.studies.drawing_places import places
from sim.studies.drawing_readings import compared, reading_remarks
from sim.studies.scale import scale

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.drawing import MeasuredDrawing
    from sim.model.model import Model
    from sim.studies.drawing_frame import DrawnFrame

STRAIGHT = (
    "Edges are straight and tips square, tail surfaces rectangles: the scenario gives no more. The fuselage has its "
    "length, width and depth; where it narrows, and its depth at the stern, are assumed. The legs of the gear are not "
    "drawn."
)


def drawing(model: Model, *, powerplant: str | None = None, readings: MeasuredDrawing | None = None) -> DrawingAnswer:
    """Return a three-view of an airplane.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables section and layout; what others add is drawn where they are there.
    powerplant : str or None
        Engine in it; None for that of the balance table, else the first.
    readings : MeasuredDrawing or None
        Caliper readings off a drawing of it, as of `sim.model.drawing.drawing`, to be laid over it.

    Raises
    ------
    InputError
        When one of the two tables is missing, or there is no powerplant of that name; as of `sim.studies.scale.scale`.
    NoAnswerError
        When a spar does not fit.
    """
    name = model.usual_powerplant(powerplant).name
    frame = drawn_frame(model, name)
    chord, balances, clearance = model.mean_chord, model.can_balance(name), model.propeller_clearance(name)
    limits = (model.limits.forward_limit, model.limits.aft_limit) if balances else (None, None)
    stations_m = [
        None if share is None else chord.station_m(share)
        for share in (*limits, *(model.cg_range(name) if balances else (None, None)))
    ]
    sizes, marked = tuple(dimensions(model, frame)), tuple(places(model, frame))
    keys = {one.key for one in sizes} | {one.key for one in marked}
    scaled = scale(readings) if readings else None
    return DrawingAnswer(
        title=model.title,
        powerplant=name,
        dimensions=sizes,
        places=marked,
        forward_limit_station_m=stations_m[0],
        aft_limit_station_m=stations_m[1],
        foremost_cg_station_m=stations_m[2],
        aftmost_cg_station_m=stations_m[3],
        level_clearance_m=clearance.level_clearance_m if clearance else None,
        standing_clearance_m=clearance.standing_clearance_m if clearance else None,
        pitch_deg=degrees(frame.stance.pitch_rad) if frame.stance else None,
        readings_title=scaled.title if scaled else "",
        readings=tuple(compared(model, scaled, keys)) if scaled else (),
        views=seen(*outline(model, frame)),
        notes=(STRAIGHT, *_missing(model, frame)),
        remarks=(
            *(reading_remarks(model, scaled) if scaled else ()),
            *model.remark_texts("drawing", name),
            *model.remark_texts("layout", name),
        ),
    )


def drawing_if_possible(model: Model, powerplant: str, *, engine_move_m: float = 0.0) -> DrawingAnswer | None:
    """Return a three-view, or None where the scenario does not tell enough of the wing.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str
        Engine in it.
    engine_move_m : float
        From where the scenario has it, aft positive. [m]
    """
    try:
        return drawing(model.with_engine_moved(powerplant, engine_move_m), powerplant=powerplant)
    except (InputError, NoAnswerError):
        return None


def _missing(model: Model, frame: DrawnFrame) -> Iterator[str]:
    """Yield what is not drawn, and the key that would let it."""
    if not model.thrust_line_given:
        yield "Engine, propeller and mount are not drawn: give balance.thrust_line, their waterline."
    elif frame.disc is None:
        yield f"The propeller is not drawn: give powerplant.{frame.powerplant}.propeller.station."
    if frame.stance is None:
        yield "The ground is not drawn: give two main wheels and a third under weighing.support."
    if model.firewall_station_m is None:
        yield "The firewall is not drawn: give mount.firewall."
    if not frame.items:
        yield "Who and what is aboard is not drawn: list it as [[item]], with its place and the size of its box."
    if frame.layout.truss.upper_longeron_waterline_m == frame.layout.truss.lower_longeron_waterline_m:
        yield "How high the fuselage stands is not known: give layout.upper_longeron and layout.lower_longeron."
    if any(placed.plane.taper != 1.0 for placed in frame.layout.planes):
        yield "Spars and fittings of a tapered plane are placed along its mean chord, as layout has them."
