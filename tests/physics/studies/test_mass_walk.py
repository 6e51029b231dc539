"""Every study flies each engine at its own mass, centre of gravity and inertia, and none reads them elsewhere.

The item of one engine alone changes the answers of that engine alone, in every study that flies and in none that times
or cuts. Behind a complete list the keys of mass and arms are a point of reference, which no answer may depend on.
"""

import sys
from dataclasses import asdict
from functools import cache, partial
from pathlib import Path

import numpy as np
import pytest
import tomlkit
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

import sim
from sim.aerodynamics.cg_transfer import given_about_moved_cg
from sim.answer import plain
from sim.live.scene_data import stage
from sim.model.model import model
from sim.scenario.airframe import AirplaneTable
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.derivatives import derivatives
from sim.studies.drag import drag
from sim.studies.drawing import drawing
from sim.studies.maneuver import maneuver
from sim.studies.modes import modes
from sim.studies.structure import structure
from sim.sweeps.registry import MANEUVERS, STUDIES

OWN = {
    BIPLANE: ("rotary", "oil and its tank"),
    TRIPLANE: ("rotary", "oil and its tank"),
    PARASOL: ("upright_four", "radiator"),
}
"""Airplane -> one of its engines, not the one on the scales, and an item that it alone has."""
STILL = {"layout", "windows", "rate", "safe_range", "burst", "cooling", "exhibit"}
"""Studies of what neither flies nor weighs."""
FLOWN = [name for name in STUDIES if name not in STILL | {"summary", "maneuver.reversal", "link"}]
"""Those that have answers for each engine; a reversal is a turn begun banked, and no airplane here has a link."""
FLOWN_S = 4.0
"""Long enough for every control to move and come back; what an airplane weighs shows from the first step."""
ASKED = {
    **STUDIES,
    **{
        f"maneuver.{name}": partial(
            maneuver,
            name=name,
            **({"flown_s": 8.0, "speed_m_s": 24.0} if name == "spin-entry" else {"flown_s": FLOWN_S}),
        )
        for name in MANEUVERS
    },
    "derivatives": lambda ours: {name: derivatives(ours, powerplant=name) for name in ours.powerplants},
    "drawing": lambda ours: {name: drawing(ours, powerplant=name) for name in ours.powerplants},
    "drag": lambda ours: {name: drag(ours, powerplant=name) for name in ours.powerplants},
    "structure": lambda ours: {name: structure(ours, powerplant=name) for name in ours.powerplants},
    "balance": lambda ours: {name: balance(ours, powerplant=name) for name in ours.powerplants},
    "stage": lambda ours: {"rotary": stage(ours).rotary.flying.airplane, "fixed": stage(ours).fixed.flying.airplane},
}


def stands(study, path):
    """Return whether a study has its wheels: those of take-off need them, and the parasol is not weighed."""
    return study not in ("field", "maneuver.take-off") or path != PARASOL


def leaves(value, path=()):
    """Yield the dotted path and the value of everything in a plain answer; entries of a list go by their powerplant.

    Remarks, which speak of keys, are no results.
    """
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key)) if key != "remarks" else ()
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            name = inner.get("powerplant") if isinstance(inner, dict) else None
            yield from leaves(inner, (*path, name or str(number)))
    else:
        yield ".".join(path), value


@cache
def answered(study, path, *settings):
    """Return a study's answer as leaves; what does not come from the model is asked once."""
    return dict(leaves(plain(ASKED[study](built(path, *settings)))))


def changed(before, after, part=1e-9):
    """Return the paths whose values differ by more than a part of them, or are in one of the two alone."""
    return [key for key in before | after if not same(before.get(key), after.get(key), part)]


def numbers_changed(before, after):
    """Return those but for remarks, which speak of every engine."""
    return [key for key in changed(before, after) if "remarks" not in key.split(".")]


def same(one, other, part=1e-9):
    if isinstance(one, float) and isinstance(other, float):
        return one == pytest.approx(other, rel=part, abs=part)
    return one == other


@pytest.mark.parametrize(("study", "path"), [(study, path) for study in FLOWN for path in OWN if stands(study, path)])
def test_what_one_engine_carries_changes_its_own_answers_alone(study, path):
    engine, item = OWN[path]
    heavier = (f"item.{item}.mass=41 lb", f"item.{item}.station=93 in")
    moved = numbers_changed(answered(study, path), answered(study, path, *heavier))
    assert moved != []
    assert [key for key in moved if engine not in key.split(".")] == []


@pytest.mark.parametrize("path", OWN, ids=lambda path: path.stem)
@pytest.mark.parametrize("study", sorted(STILL))
def test_what_neither_flies_nor_weighs_does_not_change(study, path):
    item = OWN[path][1]
    assert numbers_changed(answered(study, path), answered(study, path, f"item.{item}.mass=41 lb")) == []


@pytest.mark.parametrize(("path", "side"), [(BIPLANE, "first"), (TRIPLANE, "first"), (PARASOL, "second")])
def test_the_rotors_share_is_that_of_each_own_mass(path, side):
    """Momentum decides who is first and second; the doubling of a share is that of the first."""
    engine, item = OWN[path]
    before, after = (
        answered("summary", path, *settings) for settings in ((), (f"item.{item}.mass=41 lb", "flight.speed=83 mph"))
    )
    assert before[f"{side}.powerplant"] == engine
    before = answered("summary", path, "flight.speed=83 mph")
    moved = {key.partition(".")[0] for key in changed(before, after)}
    assert moved == ({"first", "doubling"} if side == "first" else {"second"})


def test_the_viewer_flies_each_engine_at_its_own_mass():
    item = OWN[BIPLANE][1]
    moved = changed(answered("stage", BIPLANE), answered("stage", BIPLANE, f"item.{item}.mass=41 lb"))
    assert {key.partition(".")[0] for key in moved} == {"rotary"}
    ours = built(BIPLANE)
    shown = stage(ours)
    for flyer, name in ((shown.rotary, "rotary"), (shown.fixed, "flat_four")):
        assert flyer.flying.airplane.body == ours.flown_mass(name).body


def written(folder, path, by_m, mass_share):
    """Return the airplane with other keys of mass, and its arms from a point `by_m` farther forward."""
    scenario, table = load(path), tomlkit.parse(path.read_text(encoding="utf-8"))
    table["airplane"]["mass"] = f"{mass_share * scenario.airplane.mass_kg!r} kg"
    for name in ("wing", "tailplane", "fin"):
        table[name]["arm"] = f"{getattr(scenario, name).arm_m + by_m!r} m"
    for name, engine in scenario.powerplant.items():
        table["powerplant"][name]["propeller"]["arm"] = f"{engine.propeller.arm_m - by_m!r} m"
        table["powerplant"][name]["thrust_arm"] = f"{engine.thrust_arm_m + by_m!r} m"
    table.pop("derivatives", None)  # about that very point
    target = folder / f"{path.stem}_{mass_share}.toml"
    target.write_text(tomlkit.dumps(table), encoding="utf-8")
    return target


@pytest.mark.slow
@pytest.mark.parametrize("path", OWN, ids=lambda path: path.stem)
def test_behind_a_complete_list_no_answer_depends_on_the_keys(tmp_path, path):
    one, other = written(tmp_path, path, 0.0, 1.0), written(tmp_path, path, 0.031, 1.06)
    for study in {name for name in ("summary", *FLOWN, "stage") if stands(name, path)}:
        part = 1e-4 if study == "maneuver.take-off" else 1e-9  # springing wheels magnify what rounds differently
        assert changed(answered(study, one), answered(study, other), part) == [], study
    assert balance(built(one)).remarks != balance(built(other)).remarks
    figures = [dict(leaves(plain(stage(built(path)).figure))) for path in (one, other)]
    assert changed(*figures, 1e-12) == []


def test_mass_and_inertia_are_read_where_the_mass_state_is_made(monkeypatch):
    """Every study and the viewer, of an airplane with a list and of one without."""
    readers, home = set(), str(Path(sim.__file__).parent)
    numbers = {name for name in AirplaneTable.model_fields if name.endswith(("_kg", "_kg_m2"))}

    def spy(table, name):
        if name in numbers:
            readers.add(sys._getframe(1).f_code.co_filename)
        return object.__getattribute__(table, name)

    scenarios = [load(BIPLANE), load(PARASOL)]
    scenarios[1] = scenarios[1].model_copy(update={"item": []})
    monkeypatch.setattr(AirplaneTable, "__getattribute__", spy, raising=False)
    for scenario in scenarios:
        ours = model(scenario)
        for study in set(STUDIES) - STILL - {"balance", "link", "maneuver.turn", "maneuver.reversal"}:
            if study not in ("field", "maneuver.take-off") or ours.stance():
                (ASKED if study.startswith("maneuver") else STUDIES)[study](ours)
        stage(ours)
    balance(model(scenarios[0]))
    assert len(numbers) == 5
    assert {name.removeprefix(home) for name in readers} == {"/model/flown_mass.py", "/model/weights.py"}


# ---- the same airplane by hand ----------------------------------------------------------------------------------


def by_hand(scenario, engine):
    """Return mass, centre of gravity (station, waterline) and inertia (roll, pitch, yaw, product) of a list: boxes."""
    line, table = scenario.balance.thrust_line_m, scenario.powerplant[engine]
    rows = [
        (i.mass_kg, i.station_m, i.buttline_m, i.waterline_m, i.length_m, i.width_m, i.height_m)
        for i in scenario.item
        if i.powerplant in (None, engine)
    ]
    rows.append((table.mass_kg, table.station_m, 0.0, line, 0.0, 0.0, 0.0))
    rows.append((table.propeller.mass_kg, table.propeller.station_m, 0.0, line, 0.0, 0.0, 0.0))
    m, aft, right, up, length, width, height = np.array([[float(x or 0.0) for x in row] for row in rows]).T
    mass = m.sum()
    x, y, z = aft - m @ aft / mass, right - m @ right / mass, up - m @ up / mass
    inertia = (
        m @ (y**2 + z**2 + (width**2 + height**2) / 12.0),
        m @ (x**2 + z**2 + (length**2 + height**2) / 12.0),
        m @ (x**2 + y**2 + (length**2 + width**2) / 12.0),
        m @ (x * z),  # forward and down, both turned round
    )
    return mass, m @ aft / mass, m @ up / mass, np.array(inertia)


def keyed(folder, path, engine, usual):
    """Return the airplane without a list, its keys those of one engine's list summed by hand."""
    scenario, table = load(path), tomlkit.parse(path.read_text(encoding="utf-8"))
    mass, station, waterline, built = by_hand(scenario, engine)
    airplane, wing, placed = scenario.airplane, scenario.wing, scenario.powerplant[engine]
    keys = [f"inertia_{axis}" for axis in ("roll", "pitch", "yaw", "product")]
    stated = np.array([getattr(airplane, f"{key}_kg_m2") for key in keys])
    own = by_hand(scenario, usual)[3]
    kept = (abs(stated - own)[:3] > 0.2 * own[:3]).any()
    inertia = stated + built - own if kept else built
    aft = station - (model(path).mean_chord.station_m(0.25) - wing.arm_m)
    del table["item"]
    table["airplane"]["mass"] = f"{float(mass)!r} kg"
    for key, value in zip(keys, inertia.tolist(), strict=True):
        table["airplane"][key] = f"{value!r} kg m^2"
    for name in ("wing", "tailplane", "fin"):
        table[name]["arm"] = f"{float(getattr(scenario, name).arm_m - aft)!r} m"
    there = table["powerplant"][engine]
    there["thrust_arm"] = f"{float(waterline - scenario.balance.thrust_line_m)!r} m"
    there["propeller"]["arm"] = f"{float(station - placed.propeller.station_m)!r} m"
    for name, value in given_about_moved_cg(
        scenario.derivatives.given(), estimates(folder, path, engine), model(path).polar, float(aft)
    ).items():
        table["derivatives"][name] = float(value)
    target = folder / "by_hand.toml"
    target.write_text(tomlkit.dumps(table), encoding="utf-8")
    return target


def estimates(folder, path, engine):
    """Return the derivatives of an airplane of which none is given, about its own centre of gravity."""
    table = tomlkit.parse(path.read_text(encoding="utf-8"))
    del table["derivatives"]
    bare = folder / "estimated.toml"
    bare.write_text(tomlkit.dumps(table), encoding="utf-8")
    return model(bare).airplane(engine).derivatives


def roots(path, engine, *settings):
    flight = next(f for f in modes(built(path, *settings)).flights if f.powerplant == engine)
    return np.array([(mode.real_per_s, mode.imag_rad_s) for mode in flight.modes])


@pytest.mark.parametrize("engine", ["flat_six", "rotary", "upright_four"])
@pytest.mark.parametrize("move", [0.0, 0.13])
def test_the_modes_are_those_of_keys_that_say_the_same(tmp_path, engine, move):
    text = PARASOL.read_text(encoding="utf-8")
    airplane = tmp_path / "moved.toml"
    airplane.write_text(text.replace('station = "2.19 m ± 20 mm"', f'station = "{2.19 + move!r} m"'), encoding="utf-8")
    same_keys = keyed(tmp_path, airplane, engine, usual="flat_six")
    assert roots(airplane, engine) == pytest.approx(roots(same_keys, engine), rel=1e-9, abs=1e-9)
    assert asdict(model(airplane).flown_mass(engine).body) == pytest.approx(
        asdict(model(same_keys).flown_mass(engine).body), rel=1e-12
    )


@pytest.mark.parametrize("path", OWN, ids=lambda path: path.stem)
def test_a_station_of_the_engines_own_item_moves_its_roots_alone(path):
    engine, item = OWN[path]
    for name in load(path).powerplant:
        before, after = roots(path, name), roots(path, name, f"item.{item}.station=121 in")
        moved = before.shape != after.shape or abs(before - after).max() > 1e-3
        assert moved == (name == engine)
