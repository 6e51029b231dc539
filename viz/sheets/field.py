"""The sheet of `whirlgate field`: a column for each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.model.plausibility.limits import TAIL_WHEEL_CLEARANCE
from sim.studies.field_place import BRAKED_FRICTION
from sim.studies.field_stance import NOSE_OVER, OVERTURN, SHORT_OF_STALL, STRIKES
from viz.sheets.bands import NEARLY_ALL, band, has_band, known, with_band
from viz.sheets.blocks import Run, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.masses import flown_at
from viz.sheets.validity import outside, starred

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.field import FieldAnswer
    from sim.studies.field_of import FieldOf
    from sim.studies.field_wind import WindHeld
    from viz.sheets.blocks import Block, Cell, Sentence

ROWS = (
    ("lift-off at", "lift_off_m_s"),
    ("take-off run to lift-off", "ground_run_m"),
    ("from standstill over 50 ft", "to_50_ft_m"),
    ("tail raised at", "tail_up_m_s"),
    ("flattest glide, engine cut", "glide_ratio"),
    ("its airspeed", "glide_m_s"),
    ("propeller's drag in it", "glide_drag_n"),
    ("engine turned by the air at", "glide_spin_rad_s"),
    ("without a propeller", "bare_glide_ratio"),
    ("touchdown at", "touchdown_m_s"),
    ("from 50 ft to standstill", "from_50_ft_m"),
    ("landing run, engine cut", "landing_run_m"),
    ("with brakes", "braked_run_m"),
    ("engine kept running", "running_run_m"),
    ("its mean thrust at touchdown", "running_thrust_n"),
)
WINDS = (
    ("take-off", "take_off_wind_m_s", "take_off_limit"),
    ("approach", "approach_wind_m_s", "approach_limit"),
    ("touchdown", "touchdown_wind_m_s", "touchdown_limit"),
)
STANCE = (
    ("attitude on all wheels", "tail_down_deg"),
    ("angle of attack of the stall", "stall_alpha_deg"),
    ("nose over: CG behind the wheels, level", "nose_over_deg"),
    ("friction that stands it on its nose", "nose_over_friction"),
    ("tip over: slope up to the CG", "overturn_deg"),
    ("propeller above the ground, level", "propeller_clearance_m"),
    ("propeller above the ground, tail down", "propeller_clearance_tail_down_m"),
)
"""Label of a row -> field of the answer."""
ABSENT = {
    "to_50_ft_m": "does not climb",
    "tail_up_m_s": "not before lift-off",
    "running_run_m": "does not stop",
    "approach_wind_m_s": "none",
}
CONDITIONS = (
    "Full throttle, tail up from half the speed of lift-off or where full down elevator lifts it, lift-off at 1.1 "
    "times the stall or more, over the obstacle at 1.2 times. Glide: the flattest of all airspeeds, the air turning "
    "the engine against its friction, which all but stops one that turns slowly. Landing: engine cut, approach at 1.3 "
    "times the stall, on all wheels; brakes no more than the tail allows. Estimates: ground runs are good to a fifth; "
    "grass differs more."
)
DRAWN = (
    "Bands of 90 %: 256 airplanes drawn from the errors of mass, centre of gravity, power, propeller, drag, greatest "
    "lift, derivatives, rotor, slipstream and, to 30 %, of the friction of wheels and skid."
)
HELD = (
    "Steady wind across that full rudder or full ailerons hold, whichever is less: on the take-off run from where the "
    "tail comes up, on the approach with the engine cut and one wing low, at touchdown on all wheels. A tail skid on "
    "the ground holds more, and once it rolls slower than at touchdown it must."
)
TURNED = (
    "At once the torque acts about a shaft that points up on all wheels, so that it turns the nose as well as rolling "
    "the airplane, away from the swing of the take-off; as the propeller gains speed its slipstream takes part of that "
    "back."
)


def sheet(answer: FieldAnswer) -> Iterator[Block]:
    """Yield runs, winds, swing and stance, and why a powerplant has none."""
    title = say(
        "{title} on {surface} at {altitude}{wind}",
        title=answer.title,
        surface=answer.surface,
        altitude=Value("altitude_m", answer.altitude_m),
        wind=_wind(answer),
    )
    weak = (say("No column: {why}.", why=why) for why in answer.too_weak.values())
    owns, heads = answer.powerplants, ["", *answer.powerplants]
    yield rows(title, heads, _rows(answer, ROWS), *_strikes(answer), *weak, CONDITIONS, _ground(answer), *_sure(answer))
    beyond = outside(wind.approach_beyond for own in owns.values() for wind in own.winds)
    yield rows("Wind across that is held", heads, _winds(answer), HELD, *beyond)
    yield rows("On its wheels", heads, _stance(answer), _practice())
    yield from _swings(answer)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        say("the take-off in time, with {run}", run=Run("maneuver take-off")),
        say("stall, climb and top speed, with {run}", run=Run("speeds")),
    )


def _strikes(answer: FieldAnswer) -> Iterator[str]:
    """Yield which propellers reach the ground, for whom no run here can be made."""
    for name, own in answer.powerplants.items():
        if STRIKES in own.verdicts.values():
            yield (
                f"The propeller of {name} strikes the ground: no run of its column can be made. Raise "
                "balance.thrust_line above the supports with a longer gear, or take a smaller propeller."
            )


def _ground(answer: FieldAnswer) -> Sentence:
    return say(
        "Friction over load: main wheels {wheels}, textbooks' value of this ground; tail, as of a skid, {tail}, common "
        "practice, no source.",
        wheels=Value("friction", answer.friction, plain=True),
        tail=Value("tail_friction", answer.tail_friction, plain=True),
    )


def _wind(answer: FieldAnswer) -> Sentence | str:
    wind = answer.headwind_m_s
    return say(", headwind {wind}", wind=Value("headwind_m_s", wind)) if wind else ""


def _number(own: object, name: str, **look: Any) -> Cell:  # noqa: ANN401
    """Return a number, and below it its band where it has one."""
    value = known(own, name, absent=ABSENT.get(name, "not placed"), **look)
    if not has_band(own, name):
        return value
    return say("{value}\n{band}", value=value, band=band(own, name, " to ", bare=True, **look))


def _rows(answer: FieldAnswer, wanted: tuple[tuple[str, str], ...]) -> Iterator[list[Cell]]:
    for label, name in wanted:
        yield [label, *(_number(own, name) for own in answer.powerplants.values())]


def _stance(answer: FieldAnswer) -> Iterator[list[Cell]]:
    """Yield how it stands, each with its verdict where a practice is known."""
    for label, name in STANCE:
        yield [label, *(_judged(own, name) for own in answer.powerplants.values())]


def _judged(own: FieldOf, name: str) -> Cell:
    verdict = own.verdicts.get(name)
    return say("{value}, {verdict}", value=_number(own, name), verdict=verdict) if verdict else _number(own, name)


def _practice() -> Sentence:
    """Return what is good practice, whose it is, and what comes of poor."""
    return say(
        "Good is, by common practice, no source: on all wheels up to {short} below the angle of attack of the stall "
        "(farther below it lifts off and touches down faster, above it the wing stalls before it touches down); CG "
        "{least} to {most} behind the wheels (less: it noses over where the wheels drag that share of the weight, and "
        "braked they drag about {brakes}; more: it swings round harder); slope up to the CG at most {slope} (more: it "
        "tips over in a fast turn). By 14 CFR 23.925, 2014 text, at least {clear} under the propeller. The angle of "
        "the stall is that of greatest lift in trim, power off; {stall} flies into it, and may meet it a degree away.",
        short=Value("tail_down_deg", SHORT_OF_STALL.most, plain=True),
        least=Value("nose_over_deg", NOSE_OVER.least, plain=True),
        most=Value("nose_over_deg", NOSE_OVER.most, plain=True),
        brakes=Value("nose_over_friction", BRAKED_FRICTION, plain=True),
        slope=Value("overturn_deg", OVERTURN.most, plain=True),
        clear=Value("propeller_clearance_m", TAIL_WHEEL_CLEARANCE.least, plain=True),
        stall=Run("stall"),
    )


def _winds(answer: FieldAnswer) -> Iterator[list[Cell]]:
    """Yield the wind held from either side, and what ends it."""
    owns = answer.powerplants.values()
    for label, name, limit in WINDS:
        for number, side in enumerate(("left", "right")):
            yield [f"{label}, from {side}", *(_held(own.winds[number], name, limit) for own in owns)]


def _held(wind: WindHeld, name: str, limit: str) -> Cell:
    at: Cell = ""
    if name == "take_off_wind_m_s":
        at = say(" at {speed}", speed=Value("runs_out_m_s", wind.runs_out_m_s))
    value = known(wind, name, absent=ABSENT.get(name, ""))
    cell: Cell = say("{wind}, {limit}{at}", wind=value, limit=getattr(wind, limit), at=at)
    cell = starred(cell, wind.approach_beyond if name == "approach_wind_m_s" else ())
    return say("{cell}\n{band}", cell=cell, band=band(wind, name, " to ", bare=True)) if has_band(wind, name) else cell


def _sure(answer: FieldAnswer) -> Iterator[Sentence | str]:
    """Yield how the bands came about, and what share of the airplanes drawn does not do what the table says."""
    owns = answer.powerplants.items()
    if any(own.take_off_probability is not None for _, own in owns):
        yield DRAWN
    told = (
        ("take_off_probability", "lift off"),
        ("climb_out_probability", "climb over 50 ft"),
        ("stop_probability", "come to a stop with the engine kept running"),
    )
    for name, own in owns:
        for field, does in told:
            share = getattr(own, field)
            if share is not None and share < NEARLY_ALL:
                yield say(
                    "{name}: {share} of the airplanes drawn {does}.",
                    name=name,
                    share=Value(field, share, decimals=0, percent=True),
                    does=does,
                )


def _swings(answer: FieldAnswer) -> Iterator[Sentence]:
    """Yield the rudder as the tail comes up and as the ignition comes on."""
    owns = answer.powerplants.items()
    told = [_swing(name, own) for name, own in owns if own.raising_share is not None]
    if told:
        yield say(
            "Tail coming up in {time} at an even rate: rudder of its travel that keeps the run straight at the one "
            "airspeed where it begins to rise: {each}.",
            time=Value("raising_s", answer.raising_s),
            each=listed(told),
        )
    short = [name for name, own in owns if abs(own.raising_share or 0.0) > 1.0]
    if short:
        yield say("Full rudder does not keep it straight with {names}: raise the tail slower.", names=", ".join(short))
    blips = [
        say(
            "{name} {once} at once, {end} at the end of that time",
            name=name,
            once=_share(own, "blip_share"),
            end=_share(own, "blip_end_share"),
        )
        for name, own in owns
        if own.blip_share is not None
    ]
    if blips:
        yield say(
            "Kept running: a fixed engine at idle throttle, a rotary by its ignition, on for {on} in {every}. Rudder "
            "that the ignition takes each time it comes on, at touchdown: {each}. {turned}",
            on=Value("blip_on_s", answer.blip_on_s),
            every=Value("blip_every_s", answer.blip_every_s),
            each=listed(blips),
            turned=TURNED,
        )


def _swing(name: str, own: FieldOf) -> Sentence:
    """Return the rudder of one powerplant as the tail comes up."""
    return say(
        "{name} {rising}, with the tail not moving {steady}",
        name=name,
        rising=_share(own, "raising_share"),
        steady=_share(own, "rudder_share"),
    )


def _share(own: FieldOf, name: str) -> Cell:
    """Return a rudder and its band."""
    return with_band(own, name, percent=True, signed=True, decimals=0)
