"""The sheet of `whirlgate maneuver`: a column for each flight."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.flight.maneuver import BEGIN_S
from sim.flight.spin_pilot import FREE_S
from sim.flight.take_off_law import RAISING_S, ROTATING_S
from sim.studies.maneuver_history import ATTITUDES
from sim.studies.maneuver_spin import SPUN_S, TURNING_DEG_S
from viz.sheets.bands import DRAWN, NEARLY_ALL, band, has_band, known
from viz.sheets.blocks import Run, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.masses import flown_at
from viz.sheets.validity import outside, starred
from viz.words.reader import tell

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.maneuver_answer import ManeuverAnswer, ManeuverFlight
    from viz.sheets.blocks import Block, Cell, Sentence

LARGEST = (
    ("pitch up", "nose_up_deg"),
    ("pitch down", "nose_down_deg"),
    ("heading right", "nose_right_deg"),
    ("heading left", "nose_left_deg"),
    ("bank right", "bank_right_deg"),
    ("bank left", "bank_left_deg"),
    ("height lost", "height_lost_m"),
    ("height gained", "height_gained_m"),
    ("sideslip", "peak_sideslip_deg"),
)
"""Label of a row -> field of a flight."""
SPUN: tuple[tuple[str, str, dict[str, Any]], ...] = (
    ("rotating beyond the stall for", "autorotation_s", {"decimals": 1}),
    ("turns in that time", "spin_turns", {"decimals": 1}),
    ("controls crossed: rotation", "crossed_rate_deg_s", {"decimals": 0}),
    ("incidence", "crossed_alpha_deg", {"decimals": 0}),
    ("axis off the vertical", "spin_axis_deg", {"decimals": 0}),
    ("radius of the helix", "helix_radius_m", {"decimals": 0}),
    ("hands off: stops after", "free_stop_s", {"decimals": 1, "absent": "goes on"}),
    ("recovery: stops after", "recovery_s", {"decimals": 1, "absent": "does not stop"}),
    ("level after", "level_s", {"decimals": 1, "absent": "not reached"}),
    ("incidence of the pull-out", "pull_out_alpha_deg", {"decimals": 0, "absent": "none"}),
)
"""Label of a row of a spin entry -> field of a flight, and its look."""
TAKEN_OFF = (
    ("lift-off after", "lift_off_s"),
    ("after a run of", "ground_run_m"),
    ("lift-off at", "lift_off_m_s"),
    ("climb at", "climb_m_s"),
)
"""Likewise of a take-off."""
SHARE: dict[str, Any] = {"percent": True, "signed": True, "decimals": 0}
POSITION: dict[str, Any] = {**SHARE, "brief": True}
SPIN_SAID = (
    "A model of strips compares engines, and left with right: it knows nothing of how one plane or the fuselage "
    "blankets the tail in a flat spin, and it certifies no recovery."
)
SPIN_MEANT = (
    "Spun: {spun} or more beyond the angle of attack of the greatest lift, rotating to one side by {rate} or more. "
    "Spiral dive: unstalled, banked and turning as the recovery begins. Rotation, turns: about the flight path; "
    "attitude angles mean nothing where the nose passes the vertical. Axis, helix, incidence: mean over the last half "
    "second of crossed controls. Stops: below that rotation and that angle of attack. Load: load factor. Controls: "
    "largest deflection, trim included, in percent of travel."
)
GROUND = (
    "{flights}: more height lost than there is above sea level, so that the end of the record lies below it: begin "
    "higher, as with --altitude '4000 ft'."
)
TURNED = "Time to turn 90°: from the start of the simulation. "
MEANT = (
    "Pitch, heading and height: change from the start. {turned}Load: load factor. Controls: largest deflection, trim "
    "included, in percent of travel to that side: stick, pedal."
)


def sheet(answer: ManeuverAnswer) -> Iterator[Block]:
    """Yield the largest values of each flight, then the limits that it reached."""
    title = say(
        "{name} at {speed}{altitude}: {meaning}",
        name=answer.maneuver,
        speed=say("{speed} and ", speed=Value("speed_m_s", answer.speed_m_s)) if answer.speed_m_s else "",
        altitude=Value("altitude_m", answer.altitude_m),
        meaning=answer.meaning,
    )
    notes = outside((flight.beyond for flight in answer.flights), air_loads=answer.air_loads)
    yield rows(title, ["Largest", *map(called, answer.flights)], _rows(answer.flights), *notes)
    yield from _sure(answer.flights)
    yield _flown(answer)
    yield from _below_sea_level(answer)
    if any(flight.verdict for flight in answer.flights):
        spun, rate = Value("autorotation_s", SPUN_S, decimals=0), Value("crossed_rate_deg_s", TURNING_DEG_S, decimals=0)
        yield say(SPIN_MEANT, spun=spun, rate=rate)
    else:
        yield say(MEANT, turned="" if answer.maneuver == "take-off" else TURNED)
    yield flown_at(answer.masses)
    yield from _limits(answer.flights)
    yield from _begun_beyond(answer.flights)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        "the time histories, by adding --csv FILE or --figure FILE to this command",
        say("the modes behind them, with {run}", run=Run("modes")),
    )


def _flown(answer: ManeuverAnswer) -> Sentence:
    """Return what is done and for how long the flight is simulated."""
    if answer.maneuver == "take-off":
        return _taken_off(answer)
    flown = say(
        "Simulated for {flown}, of which {before} of steady flight before the first control movement",
        flown=Value("flown_s", answer.definition.flown_s, plain=True),
        before=Value("flown_s", BEGIN_S, plain=True),
    )
    held = Value("held_s", answer.definition.held_s, plain=True)
    if answer.maneuver == "spin-entry":
        return say(
            "{flown}; full rudder, stick all the way back and {share} of the ailerons against it for {held}, hands off "
            "for {free}, then throttle closed, rudder against the rotation and stick forward until they have worked, "
            "wings levelled and a pull-out with a load factor of about 2, clear of the stall. {said}",
            flown=flown,
            share=Value("share", answer.definition.share, percent=True, decimals=0),
            held=held,
            free=Value("held_s", FREE_S, plain=True),
            said=SPIN_SAID,
        )
    if answer.definition.share:
        share = Value("share", answer.definition.share, percent=True, decimals=0)
        return say("{flown}; deflection from trim {share} of travel for {held}.", flown=flown, share=share, held=held)
    if answer.maneuver == "blip":
        return say("{flown}; ignition cut for {held}.", flown=flown, held=held)
    return say("{flown}.", flown=flown)


def _taken_off(answer: ManeuverAnswer) -> Sentence:
    """Return how a take-off is flown, and the run of the study of the field beside it."""
    each = (
        say(
            "{name} {speed} after {run}{rudder}",
            name=one.powerplant,
            speed=Value("field_lift_off_m_s", one.field_lift_off_m_s),
            run=Value("field_run_m", one.field_run_m),
            rudder=""
            if one.field_rudder_share is None
            else say(", rudder {share}", share=Value("field_rudder_share", one.field_rudder_share, **SHARE)),
        )
        for one in answer.flights
    )
    return say(
        "Simulated for {flown} on wheels that spring and hold sideways, at full throttle, with the speeds and the "
        "attitudes of {run}: the tail comes up in {raising}, the nose in {rotating} to the attitude of lift-off, which "
        "ends at that speed, then to that of the climb. There, by the balance of forces, lift-off at: {each}. Here "
        "the nose takes its time, and a tail that comes up unevenly swings the nose more than an even one. That rudder "
        "and its band in {bands} are of the one airspeed at which the tail begins to rise, the largest here of the "
        "whole flight; the bands of lift-off and run are those of this run too. From where the nose comes up "
        "the strips of the wing follow a stall.",
        flown=Value("flown_s", answer.definition.flown_s, plain=True),
        run=Run("field"),
        raising=Value("raising_s", RAISING_S, plain=True),
        rotating=Value("raising_s", ROTATING_S, plain=True),
        each=listed(each),
        bands=Run("field", options="--bands"),
    )


def _limits(flights: tuple[ManeuverFlight, ...]) -> Iterator[Sentence]:
    """Yield the limits reached, flights with the same ones together."""
    for limits in dict.fromkeys(flight.limits for flight in flights if flight.limits):
        same = [called(flight) for flight in flights if flight.limits == limits]
        yield say("{flights}: {limits}.", flights=", ".join(same), limits=listed(limits))


def _begun_beyond(flights: tuple[ManeuverFlight, ...]) -> Iterator[Sentence]:
    """Yield which flights are beyond a bound of the model from their start on."""
    begun = [called(flight) for flight in flights if flight.valid_until_s is not None and flight.valid_until_s <= 0.0]
    if begun:
        yield say(
            "{flights}: beyond the range of validity in the steady flight before the first control movement already; "
            "begin faster, with --speed.",
            flights=", ".join(begun),
        )


def called(flight: ManeuverFlight) -> str:
    """Return powerplant and side of a flight, ``rotary left``."""
    return tell("{name} {side}", name=flight.powerplant, side=flight.side).strip()


def _verdict(flight: ManeuverFlight) -> Cell:
    """Return what a spin entry came to, and below it the share of the airplanes drawn that spin."""
    if flight.spun_probability is None:
        return flight.verdict
    share = Value("spun_probability", flight.spun_probability, decimals=0, percent=True)
    return say("{verdict}\n({share} spin)", verdict=flight.verdict, share=share)


def _stopped(flight: ManeuverFlight, name: str, **look: Any) -> Cell:  # noqa: ANN401
    """Return a number of a spin entry; words where the rotation had stopped before the recovery."""
    if name != "recovery_s" or flight.recovery_s != 0.0:
        return _largest(flight, name, **look)
    if not flight.recovery_high_s:
        return "had stopped"
    return say("had stopped\n{band}", band=band(flight, name, " to ", bare=True, **look))


def _below_sea_level(answer: ManeuverAnswer) -> Iterator[Sentence]:
    """Yield which flights, or which ends of their bands, lose more height than there is above sea level."""
    low = [one for one in answer.flights if max(one.height_lost_m, one.height_lost_high_m or 0.0) > answer.altitude_m]
    if low and answer.maneuver == "spin-entry":
        yield say(GROUND, flights=", ".join(map(called, low)))


def _largest(flight: ManeuverFlight, name: str, **look: Any) -> Cell:  # noqa: ANN401
    """Return one of the largest values, and below it its band, where there is one."""
    value = known(flight, name, **look)
    if not has_band(flight, name):
        return value
    return say("{value}\n{band}", value=value, band=band(flight, name, " to ", bare=True, **look))


def _turned(flight: ManeuverFlight) -> Cell:
    """Return the time to a heading 90° away and to which side that is, and below it its band."""
    if not flight.side_to_90:
        return _largest(flight, "time_to_90_s", absent="not reached")
    time = say("{time} {side}", time=known(flight, "time_to_90_s"), side=flight.side_to_90)
    if not has_band(flight, "time_to_90_s"):
        return time
    return say("{value}\n{band}", value=time, band=band(flight, "time_to_90_s", " to ", bare=True))


def _sure(flights: tuple[ManeuverFlight, ...]) -> Iterator[Sentence]:
    """Yield how the bands came about, and in what share of the airplanes drawn there is no such flight."""
    if any(flight.flown_probability is not None for flight in flights):
        yield say(DRAWN)
    for flight in flights:
        if flight.flown_probability is not None and flight.flown_probability < NEARLY_ALL:
            yield say(
                "{flight}: {share} of the airplanes drawn hold the flight that it starts from and do not diverge; the "
                "bands are of these.",
                flight=called(flight),
                share=Value("flown_probability", flight.flown_probability, decimals=0, percent=True),
            )


def _rows(flights: tuple[ManeuverFlight, ...]) -> Iterator[list[Cell]]:
    taken_off = any(flight.climb_m_s is not None for flight in flights)
    if taken_off:
        for label, name in TAKEN_OFF:
            yield [label, *(_largest(one, name, absent="not reached") for one in flights)]
    spun = any(flight.verdict for flight in flights)
    if spun:
        yield ["came to", *(_verdict(one) for one in flights)]
        for label, name, look in SPUN:
            yield [label, *(_stopped(one, name, **look) for one in flights)]
    for label, name in LARGEST:
        if not (spun and name in ATTITUDES):
            yield [label, *(_largest(flight, name, decimals=0 if name.endswith("_m") else 1) for flight in flights)]
    if not (spun or taken_off):
        yield ["time to turn 90°", *(_turned(one) for one in flights)]
    yield ["least load", *(_largest(one, "least_load_factor", decimals=2) for one in flights)]
    yield ["largest load", *(_largest(one, "greatest_load_factor", decimals=2) for one in flights)]
    for control in ("elevator", "aileron", "rudder"):
        yield [control, *(_largest(one, f"peak_{control}_share", **POSITION) for one in flights)]
    if any(flight.beyond for flight in flights):
        times = (Value("valid_until_s", flight.valid_until_s, absent="all") for flight in flights)
        yield ["valid until", *(starred(time, one.beyond) for time, one in zip(times, flights, strict=True))]
