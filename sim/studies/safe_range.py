"""The safe speed range of a cam that is cut once: where every round passes clear behind each propeller, and why."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError, refuse
from sim.model.gun_options import GunOptions, delay_stages, gun_lines
from sim.studies.safe_range_answer import (
    EdgeSensitivity,
    PropellerBand,
    SafeBand,
    SafeRangeAnswer,
    SpeedRow,
    StageRow,
)
from sim.synchronizer.gun_line import neat
from sim.synchronizer.link import spread
from sim.synchronizer.safe_range import CamKeys, CamWindow, bands, best_opening, clearance_rad, edge_slopes
from sim.units.convert import ms, rpm
from sim.units.text import brief, fixed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.link import DelayStage
    from sim.synchronizer.safe_range import Band

REACH = 1.25
"""Bands are searched up to this factor times the highest speed."""
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
        As in `sim.model.gun_options.GunOptions`, in place of the model's; without speeds: idle, cruise and full.
    dwell_deg : float or None
        Turn of the propeller for which the cam is open, 0 to 360, in place of the model's. [°]
    opens_deg : float or None
        Propeller angle at which it opens; None for the model's, or the best one where a dwell is given. [°]
    scatter_s : float or None
        Standard deviation of the whole delay, in place of the model's stages. [s]
    sigmas : float
        Standard deviations of scatter counted as the limit of each stage, 0 or more.

    Raises
    ------
    InputError
        Every fault of the options at once; when neither the model nor an option gives the cam's dwell.
    NoAnswerError
        When the window is longer than the clear arc, or the delay scatters by more than its mean.

    Notes
    -----
    Steady speed. Rounds beyond `sigmas` may still meet a blade: `burst` gives their number.
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
    )
    lines = gun_lines(model, options)
    cam = _asked(model, dwell_deg, opens_deg)
    return _answer(lines, delay_stages(model, lines[0], delay_s=delay_s, scatter_s=scatter_s), cam, sigmas)


def _asked(model: Model | None, dwell_deg: float | None, opens_deg: float | None) -> CamKeys:
    """Return the cam that the options give, or the model's, at the place that is asked for."""
    opens_rad = None if opens_deg is None else math.radians(opens_deg)
    if dwell_deg is not None:
        return CamKeys(math.radians(dwell_deg), opens_rad)
    cam = model.cam if model else None
    if cam is None:
        refuse("dwell_deg", NO_DWELL)
    return CamKeys(cam.dwell_rad, cam.opens_rad if opens_rad is None else opens_rad)


def _answer(lines: Sequence[GunLine], stages: Sequence[DelayStage], cam: CamKeys, sigmas: float) -> SafeRangeAnswer:
    deviation = spread(stages, sigmas)
    first, spreads_s = lines[0], (deviation.root_sum_square_s, deviation.worst_case_s)
    lowest, highest = min(first.spin_rad_s), max(first.spin_rad_s)
    best_rad, spare_rad = best_opening(_window(first, cam.dwell_rad, spreads_s[0]), lowest, highest)
    opens_rad = best_rad if cam.opens_rad is None else cam.opens_rad
    return SafeRangeAnswer(
        opens_deg=neat(math.degrees(opens_rad)),
        dwell_deg=neat(math.degrees(cam.dwell_rad)),
        cut_for=f"{first.powerplant or 'the propeller'}, {'best phase' if cam.opens_rad is None else 'phase given'}",
        spare_deg=math.degrees(spare_rad),
        sigmas=sigmas,
        delay_ms=ms(first.delay_s),
        worst_case_ms=ms(deviation.worst_case_s),
        root_sum_square_ms=ms(deviation.root_sum_square_s),
        stages=tuple(_stage(stage, highest) for stage in stages),
        propellers=tuple(
            _propeller(line, opens_rad, [_window(line, cam.dwell_rad, spread_s) for spread_s in spreads_s])
            for line in lines
        ),
    )


def _window(line: GunLine, dwell_rad: float, spread_s: float) -> CamWindow:
    if spread_s >= line.delay_s:
        delay, scatter = (brief("delay_ms", ms(time_s), digits=3) for time_s in (line.delay_s, spread_s))
        message = f"no safe range: the delay of {delay} scatters by {scatter}; "
        raise NoAnswerError(message + "count fewer standard deviations, or reduce the scatter of the stages")
    return CamWindow(line, dwell_rad, spread_s)


def _stage(stage: DelayStage, spin_rad_s: float) -> StageRow:
    turn_deg = math.degrees(spin_rad_s)
    return StageRow(stage.name, ms(stage.mean_s), ms(stage.sd_s), turn_deg * stage.mean_s, turn_deg * stage.sd_s)


def _propeller(line: GunLine, opens_rad: float, cams: Sequence[CamWindow]) -> PropellerBand:
    likely, worst = cams
    reach = REACH * max(line.spin_rad_s)
    found = bands(likely, opens_rad, reach)
    speeds = zip(line.spin_rad_s, line.rpm, strict=True)
    return PropellerBand(
        powerplant=line.powerplant,
        blocked_deg=line.closed_deg,
        spacing_deg=line.spacing_deg,
        bands=tuple(map(_safe, found)),
        worst_case_bands=tuple(map(_safe, bands(worst, opens_rad, reach))),
        speeds=tuple(_speed(likely, opens_rad, *speed) for speed in speeds),
        sensitivity=_sensitivity(likely, _widest(found, line.spin_rad_s)) if found else None,
    )


def _safe(found: Band) -> SafeBand:
    return SafeBand(neat(rpm(found.from_rad_s)), neat(rpm(found.to_rad_s)))


def _widest(found: Sequence[Band], speeds: Sequence[float]) -> Band:
    """Return the band that covers most of a range."""
    low, high = min(speeds), max(speeds)
    return max(found, key=lambda each: min(each.to_rad_s, high) - max(each.from_rad_s, low))


def _speed(cam: CamWindow, opens_rad: float, spin_rad_s: float, turns_per_min: float) -> SpeedRow:
    clear_deg = math.degrees(clearance_rad(cam, opens_rad, spin_rad_s))
    lead_deg = math.degrees(spin_rad_s * cam.line.delay_s)
    speed, lead = brief("rpm", turns_per_min, digits=6), fixed("lead_deg", lead_deg, "si", 0)
    if clear_deg >= 0.0:
        clear = fixed("clearance_deg", clear_deg, "si", 1)
        says = f"At {speed}, {lead} of lead: every round clears blade and margin by {clear} or more."
        return SpeedRow(turns_per_min, lead_deg, clear_deg, says)
    swept_deg = math.degrees(cam.dwell_rad + spin_rad_s * (cam.most_s - cam.least_s))
    swept = fixed("open_deg", swept_deg, "si", 0)
    why = (
        f"window and scatter together span {swept}, more than the clear arc between two blades"
        if swept_deg > cam.line.clear_deg
        else f"with {lead} of lead a blade is in line when they arrive"
    )
    return SpeedRow(turns_per_min, lead_deg, clear_deg, f"At {speed} rounds of this cam strike a blade: {why}.")


def _sensitivity(cam: CamWindow, band: Band) -> EdgeSensitivity:
    slopes = edge_slopes(cam, band)
    per_ms, per_degree = rpm(1.0 / ms(1.0)), rpm(math.radians(1.0))
    return EdgeSensitivity(
        from_shift_1_ms_rpm=slopes.from_per_delay * per_ms,
        to_shift_1_ms_rpm=slopes.to_per_delay * per_ms,
        width_change_1_ms_rpm=slopes.width_per_spread * per_ms,
        from_shift_1_deg_rpm=slopes.from_per_angle * per_degree,
        to_shift_1_deg_rpm=slopes.to_per_angle * per_degree,
        width_change_1_deg_rpm=slopes.width_per_margin * per_degree,
    )
