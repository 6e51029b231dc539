"""The safe speed range of a cam that is cut once: where every round passes clear behind each propeller, and why."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import reduce
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError, refuse
from sim.model.gun_options import GunOptions, asked_lines, delay_stages
from sim.studies.cam_answer import cams_used
from sim.studies.safe_range_answer import (
    EdgeSensitivity,
    PropellerBand,
    SafeBand,
    SafeRangeAnswer,
    StageRow,
)
from sim.studies.safe_speed import speed_row
from sim.synchronizer.cam_phase import best_phase
from sim.synchronizer.gun_line import neat
from sim.synchronizer.link import spread
from sim.synchronizer.ripple import STEADY
from sim.synchronizer.safe_range import CamWindow, bands, common, edge_slopes, longest_dwell_rad
from sim.synchronizer.serving_cut import serving_cut
from sim.synchronizer.strike_chance import worst_chance
from sim.synchronizer.timed_gun import NO_SCATTER, Scatter, timed
from sim.units.convert import ms, rpm
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.model.cam import CamKeys
    from sim.model.gun_options import AskedLines
    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.link import DelayDeviation, DelaySpread, DelayStage
    from sim.synchronizer.ripple import Ripple
    from sim.synchronizer.safe_range import Band

REACH = 1.25
"""Bands are searched up to this factor times the highest speed."""
ROUNDING = 1e-9
"""Share of a speed, or angle in degrees, that is the rounding error of the computation."""
NO_DWELL = "is missing; give it, or the table cam of the scenario"
"""Said of the dwell where nothing gives it."""


def safe_range(
    model: Model | None = None,
    *,
    powerplant: str | None = None,
    spin_rad_s: Sequence[float] = (),
    blades: float | None = None,
    blocked_deg: float | None = None,
    margin_deg: float | None = None,
    delay_s: float | None = None,
    natural_rate_per_s: float | None = None,
    action: Action | None = None,
    impulses_per_rev: float | None = None,
    dwell_deg: float | None = None,
    opens_deg: float | None = None,
    scatter_s: float | None = None,
    sigmas: float = 3.0,
) -> SafeRangeAnswer:
    """Return the safe speeds of one cam behind each powerplant of a model, or behind a gun line of options alone.

    Parameters
    ----------
    model : Model or None
        The airplane, for whose first powerplant the cam is cut; None for a gun line of options alone, which then need
        speeds, blades and the blocked arc.
    powerplant, spin_rad_s, blades, blocked_deg, margin_deg, delay_s, natural_rate_per_s, action, impulses_per_rev
    dwell_deg, opens_deg, scatter_s
        As in `sim.model.gun_options.GunOptions`, in place of the model's; without speeds: idle, cruise and full.
    sigmas : float
        Standard deviations of scatter counted as the limit of each stage, 0 or more. The best opening always makes room
        for `sim.synchronizer.cam_phase.SIGMAS`.

    Raises
    ------
    InputError
        Every fault of the options at once; when neither the model nor an option gives the cam's dwell.
    NoAnswerError
        When the window is longer than the clear arc, or the delay scatters by more than its mean.

    Notes
    -----
    Steady speed: ranges and clearances leave out a ripple within a turn; by how much it moves passages at most is told.
    Rounds beyond `sigmas`, and those that hang fire, may still meet a blade: the answer says with what chance at the
    worst instant, the ripple counted, `burst` how many of all rounds do.
    """
    options = GunOptions(
        powerplant=powerplant,
        spin_rad_s=tuple(spin_rad_s),
        blades=blades,
        blocked_deg=blocked_deg,
        margin_deg=margin_deg,
        delay_s=delay_s,
        natural_rate_per_s=natural_rate_per_s,
        action=action,
        impulses_per_rev=impulses_per_rev,
        dwell_deg=dwell_deg,
        opens_deg=opens_deg,
        scatter_s=scatter_s,
    )
    answer = _of_one_gun(model, options, sigmas)
    if model is None:
        return answer
    fails = _fails(model.second_gun, options, sigmas) if model.second_gun else None
    return replace(answer, gun=model.which_gun, second_gun_fails=fails)


def _fails(model: Model, options: GunOptions, sigmas: float) -> tuple[str, ...]:
    """Return the engines at whose speeds the cam of a gun does not serve: all, where it fits between no blades."""
    try:
        found = _of_one_gun(model, options, sigmas)
    except NoAnswerError:
        return tuple(model.powerplants if options.powerplant is None else [options.powerplant])
    return tuple(one.powerplant for one in found.propellers if not one.serves)


def _of_one_gun(model: Model | None, options: GunOptions, sigmas: float) -> SafeRangeAnswer:
    asked = asked_lines(model, options)
    if asked.keys is None and asked.cut_for.action == "impulse":
        asked = asked_lines(model, replace(options, dwell_deg=0.0))
    if asked.keys is None or (asked.keys.dwell_rad is None and asked.cut_for.action == "interrupter"):
        refuse("dwell_deg", NO_DWELL)
    _must_fit(asked.cut_for)
    stages = delay_stages(model, asked.cut_for, delay_s=options.delay_s, scatter_s=options.scatter_s)
    hangs = model.scatter if model else NO_SCATTER
    off = spread(stages, 1.0).root_sum_square
    scatter = Scatter(off.time_s, hang_share=hangs.hang_share, hang_s=hangs.hang_s, delay_sd_rad=off.turn_rad)
    ripple = model.ripple if model else STEADY
    return _answer(asked, asked.keys, stages, sigmas=sigmas, scatter=scatter, ripple=ripple)


def _must_fit(line: GunLine) -> None:
    line.must_leave_a_window("no safe range")
    dwell_rad = line.cam.dwell_rad if line.cam else 0.0
    if dwell_rad > line.clear_rad:
        dwell, clear = (brief("dwell_rad", angle, digits=3) for angle in (dwell_rad, line.clear_rad))
        between = f"is longer than the {clear} clear between two blades"
        message = f"no safe range: the dwell of {dwell} {between}; shorten the dwell"
        raise NoAnswerError(message)


def _answer(
    asked: AskedLines, keys: CamKeys, stages: Sequence[DelayStage], *, sigmas: float, scatter: Scatter, ripple: Ripple
) -> SafeRangeAnswer:
    deviation, first, cut_for = spread(stages, sigmas), asked.lines[0], asked.cut_for
    cams = cams_used(asked.lines)
    used = cams[first.powerplant]
    spare_rad = best_phase(cut_for.cam_at(0.0), cut_for, asked.delay_sd)[1]
    highest = max(first.spin_rad_s)
    worst, likely = deviation.worst_case, deviation.root_sum_square
    return SafeRangeAnswer(
        opens_deg=neat(math.degrees(first.cam_at(0.0).windows[0].opens_rad)),
        dwell_deg=used.dwell_deg or 0.0,
        cam=used,
        cams=cams,
        cut_for=cut_for.powerplant,
        best_phase=keys.opens_rad is None,
        spare_deg=math.degrees(spare_rad),
        sigmas=sigmas,
        delay_ms=ms(first.whole_delay_s(highest)),
        worst_case_ms=ms(worst.time_s + worst.turn_rad / highest),
        root_sum_square_ms=ms(math.hypot(likely.time_s, likely.turn_rad / highest)),
        delay_rpm=max(first.rpm),
        time_part_ms=ms(first.delay_s),
        angle_part_deg=math.degrees(first.delay_rad),
        leak=first.leak,
        time_limit_ms=ms(likely.time_s),
        angle_limit_deg=math.degrees(likely.turn_rad),
        ripple_depth=ripple.depth,
        stages=tuple(_stage(stage, highest) for stage in stages),
        propellers=tuple(
            _propeller(line, deviation, sigmas=sigmas, scatter=scatter, ripple=ripple) for line in asked.lines
        ),
    )


def _windows(line: GunLine, off: DelayDeviation, *, at_once: bool) -> list[tuple[CamWindow, float]]:
    """Return each window of the cam and the angle at which it opens; of those that stand alike to the blades one."""
    if off.time_s >= line.delay_s:
        delay, scatter = (brief("delay_ms", ms(time_s), digits=3) for time_s in (line.delay_s, off.time_s))
        message = f"no safe range: the delay of {delay} scatters by {scatter}; "
        raise NoAnswerError(message + "count fewer standard deviations, or reduce the scatter of the stages")
    spacing_rad = math.tau / line.blades
    alike: dict[float, tuple[CamWindow, float]] = {}
    for opening in line.cam_at(0.0).windows:
        place = round(opening.opens_rad % spacing_rad, 9) % spacing_rad
        window = CamWindow(line, opening.dwell_rad, off.time_s, off.turn_rad, at_once)
        alike.setdefault(place, (window, opening.opens_rad))
    return list(alike.values())


def _bands(windows: Sequence[tuple[CamWindow, float]], reach_rad_s: float) -> list[Band]:
    """Return the speeds at which the rounds of every window pass clear."""
    found = [bands(*window, reach_rad_s) for window in windows]
    return reduce(common, found)


def _stage(stage: DelayStage, spin_rad_s: float) -> StageRow:
    lead_rad, sd_rad = stage.lead_rad(spin_rad_s), stage.lead_sd_rad(spin_rad_s)
    return StageRow(
        stage.name, ms(lead_rad / spin_rad_s), ms(sd_rad / spin_rad_s), math.degrees(lead_rad), math.degrees(sd_rad)
    )


def _propeller(
    line: GunLine, deviation: DelaySpread, *, sigmas: float, scatter: Scatter, ripple: Ripple
) -> PropellerBand:
    likely = _windows(line, deviation.root_sum_square, at_once=False)
    worst = _windows(line, deviation.worst_case, at_once=True)
    low, high = min(line.spin_rad_s), max(line.spin_rad_s)
    found = _bands(likely, REACH * high)
    longest_rad, cut = longest_dwell_rad(likely[0][0], low, high), serving_cut(likely[0][0], low, high)
    speeds = zip(line.spin_rad_s, line.rpm, strict=True)
    ends = [end for each in found for end in (each.from_rad_s, each.to_rad_s) if end > 0.0]
    guns = [replace(timed(line, end, scatter), ripple=ripple) for end in ends]
    return PropellerBand(
        powerplant=line.powerplant,
        blocked_deg=line.closed_deg,
        spacing_deg=line.spacing_deg,
        bands=tuple(map(_safe, found)),
        worst_case_bands=tuple(map(_safe, _bands(worst, REACH * high))),
        speeds=tuple(speed_row(likely, *speed) for speed in speeds),
        serves=_within(low, high, found),
        longest_dwell_deg=math.degrees(max(longest_rad, 0.0)),
        best_opens_deg=cut.opens_deg if cut else None,
        best_dwell_deg=cut.dwell_deg if cut else None,
        unlike_places=len(likely),
        ripple_deg=math.degrees(max(_ripple_rad(line, ripple, spin) for spin in line.spin_rad_s)),
        sensitivity=_sensitivity(likely[0][0], _widest(found, line.spin_rad_s), sigmas) if found else None,
        edge_margin_share=max((worst_chance(gun, margin=True) for gun in guns), default=None),
        edge_strike_share=max((worst_chance(gun) for gun in guns), default=None),
    )


def _ripple_rad(line: GunLine, ripple: Ripple, spin_rad_s: float) -> float:
    """Return by what angle a ripple moves passages at most: those of the time, and those of what leaks."""
    shift_rad = ripple.most_shift_rad(spin_rad_s * line.delay_s)
    return shift_rad + line.leak.most_off_rad(spin_rad_s, ripple.depth)


def _within(low: float, high: float, found: Sequence[Band]) -> bool:
    """Return whether one band holds all speeds from the lowest to the highest, its ends among them."""
    return any(each.from_rad_s <= low * (1.0 + ROUNDING) and high * (1.0 - ROUNDING) <= each.to_rad_s for each in found)


def _safe(found: Band) -> SafeBand:
    return SafeBand(neat(rpm(found.from_rad_s)), neat(rpm(found.to_rad_s)))


def _widest(found: Sequence[Band], speeds: Sequence[float]) -> Band:
    """Return the band that covers most of a range."""
    low, high = min(speeds), max(speeds)
    return max(found, key=lambda each: min(each.to_rad_s, high) - max(each.from_rad_s, low))


def _sensitivity(cam: CamWindow, band: Band, sigmas: float) -> EdgeSensitivity:
    slopes = edge_slopes(cam, band)
    per_ms, per_degree = rpm(1.0 / ms(1.0)), rpm(math.radians(1.0))
    return EdgeSensitivity(
        band=_safe(band),
        from_shift_1_ms_rpm=slopes.from_per_delay * per_ms,
        to_shift_1_ms_rpm=slopes.to_per_delay * per_ms,
        width_change_1_ms_rpm=sigmas * slopes.width_per_spread * per_ms,
        from_shift_1_deg_rpm=slopes.from_per_angle * per_degree,
        to_shift_1_deg_rpm=slopes.to_per_angle * per_degree,
        width_change_1_deg_rpm=slopes.width_per_margin * per_degree,
    )
