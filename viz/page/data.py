"""What a page is told of an airplane: numbers of flight, engines and gun, solids, colours and words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from sim.live import assisted
from sim.live.flight import full_arrow_n_m
from viz.page.solids import packed
from viz.stage import readings
from viz.stage.country.fields import CROPS, HEDGE
from viz.stage.country.sky import ABOVE, HAZE
from viz.stage.gun_states import IMPULSE_RAD, RAMP_RAD
from viz.stage.palette import ROLES
from viz.stage.scenes.ghost import flat_blade
from viz.stage.scenes.over_cowl import over_cowl
from viz.stage.scenes.tally import chances_told
from viz.stage.scenes.turning import TRAVEL_RAD
from viz.stage.shapes import Rect
from viz.stage.solid import light
from viz.stage.solid.airplane import airplane, ghost
from viz.stage.solid.cam import LIFT_M, cam, chain_m, follower, roller_m
from viz.stage.solid.gun_nose import CAM_X, MUZZLE_X, gun, stern
from viz.stage.solid.gun_nose import nose as gun_nose
from viz.stage.solid.nose import nose
from viz.stage.solid.propeller import propeller
from viz.stage.worlds import narrator, slow, turning
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.paces import SLOW_MOTION
from viz.stage.worlds.world import STEP_S
from viz.words.catalogue import SOURCE, languages, locale, own_name, words
from viz.words.say import marks, say

if TYPE_CHECKING:
    from sim.live.engine import EngineSetup
    from sim.live.flight import Flyer
    from sim.live.scene_data import Stage
    from viz.stage.snapshot import BladesView

PACE: Final = 0.02
"""Pace between the blades, seconds there for one in the room, slower where there is more to see."""
NAMES: Final = (
    "scene.", "button.let_go", "button.pause", "button.go_on",
    "button.fire", "button.gear_", "pace.real", "pace.slow", "slider.pace", "turning.rotary", "turning.fixed",
    "turning.none", "turning.nose_", "turning.bank_pad", "engine.", "blades.rounds", "blades.strikes", "blades.close",
    "blades.clear", "blades.held", "blades.through", "blades.hit", "blades.gun", "blades.which_only", "blades.cam_",
    "blades.chances",
    "caption.push", "caption.nobody",
    "caption.recovery", "caption.engine_ratio", "caption.engine_less", "caption.engine_fast", "caption.lead",
    "caption.holding", "caption.rest", "caption.through", "caption.struck", "cause.", "effect.", "page.title",
    "page.scenes", "page.bank", "page.sees_", "page.inert", "overlay.strip", "action.language",
)  # fmt: skip
"""How the keys begin of what a page says."""


def data(stage: Stage, blades: BladesView | None) -> dict[str, Any]:
    """Return what a page is told, as JSON takes it; without a gun where there is none."""
    both = stage.rotary, stage.fixed
    engines = [_engine(stage, setup) for setup in (stage.rotary_engine, stage.fixed_engine)]
    solids = {"airplane": packed(airplane(stage.figure)), "ghost": packed(ghost(stage.figure))}
    if blades:
        solids |= _gun_solids(stage, blades)
    return {
        "words": {language: _words(language) for language in languages()},
        "palette": {role: list(inks[0]) for role, inks in ROLES.items()},
        "light": _light(),
        "country": {
            "sky": [[share, list(ink)] for share, ink in ABOVE],
            "haze": ",".join(f"{part:.0f}" for part in HAZE),
            "crops": [list(ink) for ink in CROPS],
            "hedge": list(HEDGE),
        },
        "hold": HOLD_S,
        "felt": narrator.FELT_SHARE,
        "lasts": narrator.LASTS_S,
        "paces": list(SLOW_MOTION),
        "figure": {"span": stage.figure.span_m, "hub": list(stage.figure.hub), "radius": stage.figure.disc_radius_m},
        "flight": _flight(both),
        "engines": engines,
        "ratio": _ratio(engines),
        "solids": solids,
        "gun": _gun(stage, blades) if blades else None,
        "chances": dict(zip(("key", "values"), chances_told(blades), strict=True)) if blades else None,
    }


def _words(language: str) -> dict[str, str]:
    point, group = marks(language)
    own = {"name": own_name(language), "code": str(locale(language)), "point": point, "group": group}
    said = {key: say(language, key) for key in words(SOURCE) if key.startswith(NAMES)}
    return {f"language.{key}": text for key, text in own.items()} | said


def _light() -> dict[str, Any]:
    return {
        "sun": light.SUN.tolist(),
        "warm": light.WARM.tolist(),
        "sky": light.SKY.tolist(),
        "earth": light.EARTH.tolist(),
        "through": light.THROUGH.tolist(),
        "glint": light.GLINT.tolist(),
        "sharp": light.SHARP,
    }


def _flight(both: tuple[Flyer, Flyer]) -> dict[str, Any]:
    travel = both[0].flying.travel
    return {
        "step": STEP_S,
        "starts": [list(who.start) for who in both],
        "bank_rate": assisted.BANK_RATE_RAD_S,
        "most_bank": assisted.MOST_BANK_RAD,
        "together": assisted.TOGETHER_PER_RAD,
        "most_together": assisted.MOST_TOGETHER_RAD,
        "upset_bank": assisted.UPSET_BANK_RAD,
        "upset_path": assisted.UPSET_PATH_SINE,
        "level_bank": assisted.LEVEL_BANK_RAD,
        "level_descent": assisted.LEVEL_DESCENT_M_S,
        "let_go": turning.LET_GO_S,
        "apart": turning.APART_S,
        "camera": turning.CAMERA_S,
        "couple": max(1.0, *map(full_arrow_n_m, both)),
        "travel": {
            "elevator": [travel.elevator_up_rad, travel.elevator_down_rad],
            "aileron": travel.aileron_rad,
            "rudder": travel.rudder_rad,
            "drawn": TRAVEL_RAD,
        },
    }


def _engine(stage: Stage, setup: EngineSetup) -> dict[str, Any]:
    built, size = nose(stage.figure, setup), setup.polar_inertia_kg_m2 * abs(setup.spin_rad_s)
    return {
        "kind": setup.kind,
        "still": packed(built.still),
        "turning": packed(built.turning),
        "hub": list(stage.figure.hub),
        "spin": setup.spin_rad_s,
        "passages": setup.cylinders if setup.kind == "rotary" else 2,
        "cylinders": setup.cylinders,
        "crank": setup.crank_radius_m,
        "rod": setup.rod_length_m,
        "radius": setup.disc_radius_m,
        "reach": stage.figure.cylinders.outer_radius_m,
        "share": size,
        "wheels": readings.wheels(size),
    }


def _ratio(engines: list[dict[str, Any]]) -> dict[str, str]:
    rotary, fixed = (one["share"] for one in engines)
    key = "caption.engine_ratio" if rotary >= fixed else "caption.engine_less"
    return {"key": key, "value": f"{max(rotary, fixed) / min(rotary, fixed):.1f}"}


def _gun_solids(stage: Stage, view: BladesView) -> dict[str, Any]:
    over = over_cowl(view, stage.figure, Rect(0.0, 0.0, 100.0, 100.0))
    line = view.gun.line
    return {
        "nose": packed(gun_nose(over.cowl_m)),
        "stern": packed(stern(over.cowl_m)),
        "gun": packed(gun(*over.line_yz_m, over.cowl_m)),
        "propeller": packed(propeller(view.blade, line.blades, over.disc_m, over.sense)),
        "cam": packed(cam(view.gun.windows_rad, line.action, view.gun.cam.period_turns, over.sense)),
        "follower_now": packed(follower("now")),
        "follower_wait": packed(follower("wait")),
    }


def _gun(stage: Stage, view: BladesView) -> dict[str, Any]:
    over, line = over_cowl(view, stage.figure, Rect(0.0, 0.0, 100.0, 100.0)), view.gun.line
    outline, bars = flat_blade(view.blade, over.disc_m, over.sense)
    return {
        "spin": view.gun.spin_rad_s,
        "cycle": line.cycle_s,
        "flight": max(line.flight_s, 1e-6),
        "blades": line.blades,
        "windows": [list(window) for window in view.gun.windows_rad],
        "action": line.action,
        "turns": view.gun.cam.period_turns,
        "period": view.gun.cam.period_rad,
        "ghost": {"outline": outline.round(4).tolist(), "bars": bars.round(4).tolist()},
        "sense": over.sense,
        "bore": over.bore_rad,
        "bore_m": over.bore_m,
        "radius": over.disc_m,
        "eye": over.camera.eye_m.tolist(),
        "basis": over.camera.basis.tolist(),
        "muzzle": MUZZLE_X,
        "cam_x": CAM_X,
        "lift": LIFT_M,
        "chain": [chain_m(*over.line_yz_m, over.cowl_m, lift).round(4).tolist() for lift in (0.0, 1.0)],
        "roller": float(roller_m(0.0)[2]),
        "ramp": RAMP_RAD,
        "impulse": IMPULSE_RAD,
        "pace": PACE,
        "link": slow.LINK_S,
        "flight_seen": slow.FLIGHT_S,
        "wait_seen": slow.WAIT_S,
        "after": slow.AFTER,
        "loading": slow.LOADING,
        "passages": slow.PASSAGES_HZ,
        "ease": slow.EASE_S,
    }
