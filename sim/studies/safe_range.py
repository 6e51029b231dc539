"""The safe speed band of a cam that is cut once: for each propeller, where rounds pass clear, and what narrows it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from sim.errors import NoAnswerError, refuse
from sim.model.delays import chain_asked
from sim.model.gun_line import neat
from sim.model.gun_options import setups, source
from sim.studies.safe_range_answer import CamBand, Price, PropellerBand, SafeBand, SpeedRow, StageRow
from sim.synchronizer.link import DelayStage, spread
from sim.synchronizer.safe_range import FixedCam, bands, best_opening, clearance_rad, costs

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.model.gun_line import Setup
    from sim.scenario.tables import Scenario
    from sim.synchronizer.safe_range import Band

RPM = 30.0 / math.pi
REACH = 1.25
"""How far beyond the highest speed asked for bands are looked for."""


def asked_band(
    *,
    loaded: Scenario | None = None,
    dwell_rad: float | None = None,
    opens_rad: float | None = None,
    scatter_s: float | None = None,
    sigmas: float = 3.0,
    **given: Any,  # noqa: ANN401
) -> CamBand:
    """Return the bands that a command asks for: a scenario's cam and chain, changed by options, or options alone.

    Without `loaded`, a scenario that is read already, the one that is named is read.

    Raises
    ------
    InputError
        Every fault at once; also when neither the scenario nor an option gives the cam's window.
    NoAnswerError
        As `band`.
    """
    loaded = loaded or source(given)
    found = setups(loaded=loaded, **given)
    cam = loaded.cam if loaded else None
    dwell = dwell_rad if dwell_rad is not None else cam.dwell_rad if cam else None
    if dwell is None:
        refuse("--dwell-deg", "is missing; give it, or the table cam of the scenario")
    if opens_rad is None and cam is not None and dwell_rad is None:
        opens_rad = cam.opens_rad
    stages = chain_asked(loaded, delay_s=given.get("delay_s"), scatter_s=scatter_s, whole_s=found[0].delay_s)
    return band(found, stages, dwell_rad=dwell, opens_rad=opens_rad, sigmas=sigmas)


def band(
    lines: Sequence[Setup],
    stages: Sequence[DelayStage],
    *,
    dwell_rad: float,
    opens_rad: float | None = None,
    sigmas: float = 3.0,
) -> CamBand:
    """Return the safe speed bands of one cam behind each propeller.

    Parameters
    ----------
    lines : sequence of Setup
        The first is the one the cam is cut for; each one's delay is the mean of the chain.
    stages : sequence of DelayStage
        The chain of delays with its scatter.
    dwell_rad : float
        Turn of the propeller for which the cam lets go. [rad]
    opens_rad : float, optional
        Where it opens; without it, where the first setup's range is served best. [rad]
    sigmas : float
        Standard deviations counted as the limit of each stage.

    Raises
    ------
    NoAnswerError
        When the window is longer than the clear arc, or the delay scatters by more than itself.

    Notes
    -----
    Steady speed. Rounds beyond `sigmas` still stray: `burst` says how many.
    """
    strays = spread(stages, sigmas)
    first = lines[0]
    cam = _cam(first, dwell_rad, strays.root_sum_square_s)
    place, spare = best_opening(cam, min(first.spin_rad_s), max(first.spin_rad_s))
    opens = place if opens_rad is None else opens_rad
    highest = max(first.spin_rad_s)
    return CamBand(
        opens_deg=neat(math.degrees(opens)),
        dwell_deg=neat(math.degrees(dwell_rad)),
        cut_for=f"{first.powerplant or 'the propeller'}, {'best place' if opens_rad is None else 'place given'}",
        spare_deg=math.degrees(spare),
        sigmas=sigmas,
        delay_ms=1e3 * first.delay_s,
        worst_case_ms=1e3 * strays.worst_case_s,
        root_sum_square_ms=1e3 * strays.root_sum_square_s,
        stages=tuple(_stage(stage, highest) for stage in stages),
        propellers=tuple(
            _propeller(
                setup, opens, [_cam(setup, dwell_rad, s) for s in (strays.root_sum_square_s, strays.worst_case_s)]
            )
            for setup in lines
        ),
    )


def _cam(setup: Setup, dwell_rad: float, spread_s: float) -> FixedCam:
    if spread_s >= setup.delay_s:
        message = f"no band: the delay of {1e3 * setup.delay_s:.3g} ms scatters by {1e3 * spread_s:.3g} ms; "
        raise NoAnswerError(message + "count fewer standard deviations or steady the stages")
    return FixedCam(dwell_rad, setup.blades, math.radians(setup.shut_deg), setup.delay_s, spread_s)


def _stage(stage: DelayStage, spin_rad_s: float) -> StageRow:
    turn_deg = math.degrees(spin_rad_s)
    return StageRow(stage.name, 1e3 * stage.mean_s, 1e3 * stage.sd_s, turn_deg * stage.mean_s, turn_deg * stage.sd_s)


def _propeller(setup: Setup, opens_rad: float, cams: Sequence[FixedCam]) -> PropellerBand:
    likely, worst = cams
    reach = REACH * max(setup.spin_rad_s)
    found = bands(likely, opens_rad, reach)
    return PropellerBand(
        powerplant=setup.powerplant,
        blocked_deg=setup.shut_deg,
        spacing_deg=360.0 / setup.blades,
        bands=tuple(map(_safe, found)),
        worst_case_bands=tuple(map(_safe, bands(worst, opens_rad, reach))),
        speeds=tuple(
            _speed(likely, opens_rad, spin, rpm) for spin, rpm in zip(setup.spin_rad_s, setup.rpm, strict=True)
        ),
        price=_price(likely, _chief(found, setup.spin_rad_s)) if found else None,
    )


def _safe(found: Band) -> SafeBand:
    return SafeBand(neat(found.from_rad_s * RPM), neat(found.to_rad_s * RPM))


def _chief(found: Sequence[Band], speeds: Sequence[float]) -> Band:
    """Return the band that serves the most of a range."""
    low, high = min(speeds), max(speeds)
    return max(found, key=lambda each: min(each.to_rad_s, high) - max(each.from_rad_s, low))


def _speed(cam: FixedCam, opens_rad: float, spin_rad_s: float, rpm: float) -> SpeedRow:
    clear_deg = math.degrees(clearance_rad(cam, opens_rad, spin_rad_s))
    lead_deg = math.degrees(spin_rad_s * cam.delay_s)
    if clear_deg >= 0.0:
        says = f"At {rpm:g} rpm, {lead_deg:.0f}° of lead, every round passes {clear_deg:.1f}° or more clear."
        return SpeedRow(rpm, lead_deg, clear_deg, says)
    swept = math.degrees(cam.dwell_rad + spin_rad_s * (cam.most_s - cam.least_s))
    why = (
        f"the window and the scatter sweep {swept:.0f}°, more than the arc between two blades"
        if swept > math.degrees(cam.spacing_rad - cam.blocked_rad)
        else f"the delay has become {lead_deg:.0f}° of turn, which brings a blade into the window's place"
    )
    return SpeedRow(rpm, lead_deg, clear_deg, f"At {rpm:g} rpm this cam would let rounds meet a blade: {why}.")


def _price(cam: FixedCam, chief: Band) -> Price:
    slopes = costs(cam, chief)
    ms, degree = 1e-3 * RPM, math.radians(1.0) * RPM
    return Price(
        from_shift_1_ms_rpm=slopes.from_per_delay * ms,
        to_shift_1_ms_rpm=slopes.to_per_delay * ms,
        width_change_1_ms_rpm=slopes.width_per_spread * ms,
        from_shift_1_deg_rpm=slopes.from_per_angle * degree,
        to_shift_1_deg_rpm=slopes.to_per_angle * degree,
        width_change_1_deg_rpm=slopes.width_per_margin * degree,
    )
