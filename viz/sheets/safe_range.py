"""The sheet of `whirlgate safe-range`: cam, safe speeds and delay; its stages and the sensitivity if asked for."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, listed, next_steps, say
from viz.sheets.cams import cam_says, other_gun
from viz.sheets.chance import OFTEN, one_in
from viz.sheets.from_sim import in_either_system
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed
    from sim.studies.safe_range_answer import EdgeSensitivity, PropellerBand, SafeBand, SafeRangeAnswer, SpeedRow
    from viz.sheets.blocks import Block, Cell, Sentence

WORDS = (
    "Propeller angle: how far blade 1 has turned past the bore line (the line of fire). Dwell: angle of the open cam.",
    "Lead: how far the propeller turns from the moment the cam lets go until the round passes.",
    "Independent: the stages of the delay scatter apart from each other. Worst case: all the same way at once.",
)
OF_GUN: dict[str, str] = {"": "", "first": "First gun", "second": "Second gun"}
STRIKES = {True: "{chance} strike", False: "{chance} strikes"}
"""Whether there are several: so many in a thousand, or one in so many."""
AT_LIMITS = " At its limits, released at the worst instant and with all that scatters, {strikes}."
NEAR_LIMITS = {
    True: " At its limits, released at the worst instant and with all that scatters, {near} pass within the margin, "
    "{strikes}.",
    False: " At its limits, released at the worst instant and with all that scatters, {near} passes within the margin, "
    "{strikes}.",
}
ONE_CUT = {
    "impulses": "one cut for it would, with impulses at {opens}",
    "short": "one cut for it would, with opening at {opens} and a dwell of {longest} at most",
    "long": "one cut for it would, with opening at {opens}",
}
EVENLY = {
    "impulses": "a cam on the propeller's shaft with one impulse for each blade, evenly spaced, would, impulses at "
    "{opens}",
    "short": "a cam on the propeller's shaft with one window for each blade, evenly spaced, would, opening at {opens} "
    "and a dwell of {longest} at most",
    "long": "a cam on the propeller's shaft with one window for each blade, evenly spaced, would, opening at {opens}",
}
ROUNDING = 1e-6
"""Part of a rpm that is the rounding error of the computation."""
SECOND_FAILS = "its cam does not serve all of these speeds"
SECOND_SERVES = "its cam serves these speeds too"
NEXT = next_steps(say("{run}, strikes with scatter beyond these limits", run=Run("burst")))


def sheet(answer: SafeRangeAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield the safe speeds behind each propeller, then the delay; with the sensitivity and its stages if asked for."""
    for one in answer.propellers:
        yield _serves(one, answer.cams[one.powerplant], gun=answer.gun, steady=answer.ripple_depth == 0.0)
    yield from map(say, other_gun(answer.gun, answer.second_gun_fails, SECOND_FAILS, SECOND_SERVES))
    yield _cam(answer)
    yield _bands(answer)
    if every:
        yield _speeds(answer)
    yield _delay(answer, every=every)
    if every:
        yield _stages(answer)
        for propeller in answer.propellers:
            failing = tuple(speed.says for speed in propeller.speeds if speed.clearance_deg < 0.0)
            if failing:
                yield Points(tuple(_of(propeller, why) for why in failing))
            if propeller.sensitivity:
                yield _sensitivity(propeller, propeller.sensitivity)
        yield Points(WORDS)
    yield NEXT


def _of(propeller: PropellerBand, why: str) -> Cell:
    engine = propeller.powerplant
    return say("{engine}: {why}", engine=engine, why=in_either_system(why)) if engine else in_either_system(why)


def _cam(answer: SafeRangeAnswer) -> Sentence:
    return say(
        "{cam} {opening} At a safe speed every round clears blade "
        "and margin whose delay is within {sigmas} standard deviations.{beyond}{ripple}",
        opening=_opening(answer),
        cam=cam_says(answer.cams, answer.gun),
        sigmas=Value("sigmas", answer.sigmas, plain=True),
        beyond=_beyond(answer),
        ripple=_ripple(answer),
    )


def _opening(answer: SafeRangeAnswer) -> Cell:
    """Return how the angle of the cam was found: the best for the range of one engine, or given."""
    if not answer.best_phase:
        return "Its angle is given."
    if not answer.cut_for:
        return "Its angle is the best for these speeds."
    return say("Its angle is the best for the {engine}.", engine=answer.cut_for)


def _ripple(answer: SafeRangeAnswer) -> Cell:
    """Return what the ripple within a turn does, which ranges leave out; nothing where the speed has none."""
    if answer.ripple_depth == 0.0:
        return ""
    return say(
        " The ranges leave out that the speed is uneven within a turn, ± {share}, which moves passages by up to "
        "{shift} to either side; {run} counts it at a speed.",
        share=Value("ripple_depth", answer.ripple_depth, percent=True, plain=True, digits=3),
        shift=Value("ripple_deg", max(one.ripple_deg for one in answer.propellers), decimals=1),
        run=Run("burst"),
    )


def _beyond(answer: SafeRangeAnswer) -> str:
    """Return what becomes of the rounds that scatter further or hang fire, behind the propeller where it is worst."""
    near = max((one.edge_margin_share or 0.0 for one in answer.propellers), default=0.0)
    struck = max((one.edge_strike_share or 0.0 for one in answer.propellers), default=0.0)
    if near <= 0.0:
        return ""
    strikes = tell(STRIKES[struck >= OFTEN], chance=one_in(struck))
    if near <= struck:
        return tell(AT_LIMITS, strikes=strikes)
    return tell(NEAR_LIMITS[near >= OFTEN], near=one_in(near), strikes=strikes)


def _bands(answer: SafeRangeAnswer) -> Table:
    named = any(one.powerplant for one in answer.propellers)
    engines = (Column("Engine", tuple(one.powerplant for one in answer.propellers)),) if named else ()
    return Table(
        "Safe propeller speeds",
        (
            *engines,
            Column("Independent scatter", tuple(_listed(one.bands) for one in answer.propellers)),
            Column("Worst case", tuple(_listed(one.worst_case_bands) for one in answer.propellers)),
        ),
    )


def _serves(one: PropellerBand, cam: CamUsed, *, gun: WhichGun, steady: bool) -> Sentence:
    """Return whether the cam serves all of the speeds asked for, and if not what cam would."""
    speeds = [speed.rpm for speed in one.speeds]
    low, high = min(speeds), max(speeds)
    span: Cell = Value("rpm", high, plain=True)
    if high > low:
        span = say("{low} to {high}", low=Value("rpm", low, plain=True, bare=True), high=span)
    slots: dict[str, Cell] = {
        "span": span,
        "steady": "" if steady else " at a speed steady within a turn",
        "longest": Value("best_dwell_deg", one.best_dwell_deg, digits=8, plain=True),
        "opens": Value("best_opens_deg", one.best_opens_deg, digits=8, plain=True),
    }
    if one.serves:
        told = say("the cam serves {span}{steady}.", **slots)
    elif one.best_dwell_deg is None:
        told = say("the cam does not serve {span}, and none does: the lead changes too much.", **slots)
    else:
        told = say("the cam does not serve {span}; {would}.", would=say(_would(one, cam), **slots), **slots)
    names = [worded(OF_GUN[gun]), one.powerplant]
    whose = ", ".join(filter(None, names))
    return say("{whose}: {told}", whose=whose, told=told) if whose else told


def _would(one: PropellerBand, cam: CamUsed) -> str:
    """Return what cam would serve, a text with slots."""
    impulses = cam.dwell_deg == 0.0
    short = not impulses and (one.best_dwell_deg or 0.0) < (cam.dwell_deg or 0.0) - ROUNDING
    return (ONE_CUT if one.unlike_places == 1 else EVENLY)["impulses" if impulses else "short" if short else "long"]


def _speeds(answer: SafeRangeAnswer) -> Table:
    lines = [(one.powerplant, speed) for one in answer.propellers for speed in one.speeds]
    engines = (Column("Engine", tuple(engine for engine, _ in lines)),) if any(engine for engine, _ in lines) else ()
    return Table(
        "At the speeds asked for",
        (
            *engines,
            Column("Propeller speed", tuple(Value("rpm", speed.rpm, plain=True) for _, speed in lines)),
            Column("Lead", tuple(Value("lead_deg", speed.lead_deg, decimals=0) for _, speed in lines)),
            Column("Clearance", tuple(_clearance(speed) for _, speed in lines)),
        ),
        ("Clearance: angle from the nearest round to the blade and its margin, independent scatter.",),
    )


def _clearance(speed: SpeedRow) -> Cell:
    if speed.clearance_deg >= 0.0:
        return Value("clearance_deg", speed.clearance_deg, decimals=1)
    return "meets a blade" if speed.strikes else "within the margin"


def _delay(answer: SafeRangeAnswer, *, every: bool) -> Sentence:
    return say(
        "Delay from cam to disc at {highest}: {delay}, within {sigmas} standard deviations ± {likely} (independent) or "
        "± {worst} (worst case).{more}",
        highest=_highest(answer),
        delay=Value("delay_ms", answer.delay_ms, decimals=2),
        sigmas=Value("sigmas", answer.sigmas, plain=True),
        worst=Value("worst_case_ms", answer.worst_case_ms, decimals=2),
        likely=Value("root_sum_square_ms", answer.root_sum_square_ms, decimals=2),
        more=""
        if every
        else " --all adds lead and clearance at each speed, the stages of the delay and what moves the limits.",
    )


def _highest(answer: SafeRangeAnswer) -> Value:
    return Value("delay_rpm", answer.delay_rpm, plain=True)


def _stages(answer: SafeRangeAnswer) -> Table:
    stages, highest = answer.stages, _highest(answer)

    def column(head: str, name: str, decimals: int, short: str) -> Column:
        return Column(head, tuple(Value(name, getattr(s, name), decimals=decimals) for s in stages), short=short)

    return Table(
        say("Delay from cam to disc, as time and as propeller angle at {highest}", highest=highest),
        (
            Column("Stage", tuple(stage.name for stage in stages)),
            column("Mean time", "mean_ms", 2, "Mean"),
            column("Standard deviation of the time", "sd_ms", 2, "Scatter"),
            column("Mean angle", "mean_deg", 1, "Angle"),
            column("Standard deviation of the angle", "sd_deg", 2, "Scatter"),
        ),
        ("Scatter: one standard deviation.",),
    )


def _sensitivity(propeller: PropellerBand, found: EdgeSensitivity) -> Points:
    """Return what moves the limits; of several bands it names the one."""
    engine = propeller.powerplant
    named: Cell = say("{engine}: ", engine=engine) if engine else ""
    if len(propeller.bands) > 1:
        said = "{engine}, {band}: " if engine else "{band}: "
        named = say(said, engine=engine, band=band(found.band))

    def changed(name: str) -> Value:
        return Value(name, getattr(found, name), decimals=0)

    return Points(
        (
            say(
                "{named}1 ms more delay changes the lower limit by {low}, the upper limit by {high}.",
                named=named,
                low=changed("from_shift_1_ms_rpm"),
                high=changed("to_shift_1_ms_rpm"),
            ),
            say(
                "{named}A cam that opens 1° later changes the lower limit by {low}, the upper limit by {high}.",
                named=named,
                low=changed("from_shift_1_deg_rpm"),
                high=changed("to_shift_1_deg_rpm"),
            ),
            say(
                "{named}1 ms more standard deviation of the delay changes the width by {scatter}, 1° more margin on "
                "each side by {margin}.",
                named=named,
                scatter=changed("width_change_1_ms_rpm"),
                margin=changed("width_change_1_deg_rpm"),
            ),
        )
    )


def _listed(found: tuple[SafeBand, ...]) -> Cell:
    return listed(map(band, found), "\n") if found else "none"


def band(found: SafeBand) -> Sentence:
    """Return a band from speed to speed, in whole rpm that lie within it."""
    low, high = whole_rpm(found)
    return say(
        "{low} to {high}",
        low=Value("from_rpm", low, decimals=0, bare=True),
        high=Value("to_rpm", high, decimals=0),
    )


def whole_rpm(found: SafeBand) -> tuple[int, int]:
    """Return the first and the last whole rpm of a band, so that what is printed is safe.

    Of a band within one rpm both are the nearest.
    """
    low, high = ceil(found.from_rpm - ROUNDING), floor(found.to_rpm + ROUNDING)
    return (low, high) if low <= high else (round(found.from_rpm), round(found.to_rpm))
