"""What turns and what stands: both noses turn as their engines do, and what is said of them is their numbers."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from shared import built
from stage_shapes import flat, later, of, shapes

from sim.live.scene_data import _engine as engine_setup
from sim.rotor.parts import Contribution
from viz.stage.palette import colour
from viz.stage.scenes.engine import TURN
from viz.stage.scenes.schematic import fixed, rotary
from viz.stage.shapes import Block, Disc, Facets, Line, Polygon, Rect, Veil, texts
from viz.stage.solid.nose import SHAFT, TINTED, nose, turned

GIVEN = Contribution("engine, as given", 0.0, 15.0)


def test_pistons_lie_on_their_cylinders_and_rods_meet_at_the_pin(session):
    session.show("engine")
    later(session, 1.3)
    engine = session.snapshot().view.rotary
    setup = engine.setup
    for axis, (x, y) in zip(engine.cylinder_axes_rad, engine.pistons_m, strict=True):
        assert math.atan2(x, y) == pytest.approx(math.remainder(axis, math.tau), abs=1e-9)
        assert math.hypot(x, y - setup.crank_radius_m) == pytest.approx(setup.rod_length_m)
    sheet = rotary(engine, Rect(0, 0, 400, 400), 0.0, 1.0)
    rods = [shape for shape in sheet if isinstance(shape, Line) and shape.role == "turning" and shape.smooth]
    assert len({line.points[0] for line in rods}) == 1
    assert len(rods) == setup.cylinders


def test_the_crank_of_the_rotary_stands_and_that_of_the_fixed_engine_turns(session):
    session.show("engine")
    seen_pins = []
    for _ in range(3):
        later(session, 0.4)
        view = session.snapshot().view
        seen_pins.append((view.rotary.crankpins_m[0], view.fixed.crankpins_m[0]))
    assert len({tuple(np.round(pin, 12)) for pin, _ in seen_pins}) == 1
    assert len({pin for _, pin in seen_pins}) == 3


def test_momentum_bars_have_one_scale(session, stage):
    session.show("engine")
    view = session.snapshot().view
    found = list(flat(shapes(session, stage)))
    bars = of(found, Block, "rotary") + of(found, Block, "fixed")
    ratio = view.rotary.angular_momentum_kg_m2_s / view.fixed.angular_momentum_kg_m2_s
    assert bars[0].rect.w / bars[1].rect.w == pytest.approx(ratio)


def turns(chain, centre):
    """Return the turn of a chain of points about a centre, clockwise on the picture positive [rad]."""
    angles = np.unwrap([math.atan2(y - centre[1], x - centre[0]) for x, y in chain])
    return angles[-1] - angles[0]


def test_arrows_go_the_way_of_the_shaft_as_seen_from_ahead(session, stage):
    """Clockwise from the cockpit is anticlockwise from ahead; an engine that stands has none."""
    session.show("engine")
    view = session.snapshot().view
    arcs = [line for line in of(flat(shapes(session, stage)), Line, "turning") if len(line.points) > 5]
    assert len(arcs) == 4
    for pair, engine in ((arcs[:2], view.rotary), (arcs[2:], view.fixed)):
        centre = np.mean([point for line in pair for point in line.points], axis=0)
        for line in pair:
            assert math.copysign(1.0, turns(line.points, centre)) == -math.copysign(1.0, engine.spin_rad_s)
    session.engine.set("fixed_spin_rad_s", 0.0)
    later(session, 2.0)
    assert len([line for line in of(flat(shapes(session, stage)), Line, "turning") if len(line.points) > 5]) == 2


def test_in_the_drawings_all_that_moves_is_yellow_and_only_what_stands_is_grey(session):
    """Of the rotary the crank alone is grey; of the fixed engine crank, rods and pistons are yellow."""
    session.show("engine")
    view, sheet = session.snapshot().view, Rect(0, 0, 400, 400)
    for drawn, engine in ((rotary, view.rotary), (fixed, view.fixed)):
        shapes = drawn(engine, sheet, 0.0, 1.0)
        assert {one.role for one in shapes} <= {"turning", "still", "back"}
        assert sum(one.role == "turning" for one in shapes if isinstance(one, Polygon)) >= engine.setup.cylinders
    grey = [one for one in rotary(view.rotary, sheet, 0.0, 1.0) if one.role == "still"]
    assert [type(one) for one in grey] == [Line, Disc, Disc]


def test_blades_and_cylinders_turn_with_the_shaft_and_the_rest_stands(session, stage):
    """By the corners of the solid, about the shaft; the cylinders of the fixed engine are still."""
    for engine in (stage.rotary_engine, stage.fixed_engine):
        parts = nose(stage.figure, engine)
        before, after = (parts.turning.posed(turned(angle)).places - parts.shaft for angle in (0.0, 0.7))
        angles = np.arctan2(before[:, 1], -before[:, 2]), np.arctan2(after[:, 1], -after[:, 2])
        far = np.hypot(before[:, 1], before[:, 2]) > 0.2
        moved = np.angle(np.exp(1j * (angles[1] - angles[0])))
        assert moved[far] == pytest.approx(0.7, abs=1e-9)
        reach = np.hypot(before[:, 1], before[:, 2]).max()
        assert reach == pytest.approx(engine.disc_radius_m, rel=1e-3)
        assert SHAFT in parts.turning.turning.names
        assert f"{engine.kind}_fin_light" in (parts.turning if engine.kind == "rotary" else parts.still).roles
    assert "fixed_fin_light" not in nose(stage.figure, stage.fixed_engine).turning.roles


def test_the_metal_of_the_rotary_is_warm_and_that_of_the_fixed_engine_cool():
    for role, contrast in itertools.product(TINTED, ("normal", "high")):
        (red, _, blue), (less, _, more) = (colour(f"{kind}_{role}", contrast) for kind in ("rotary", "fixed"))
        assert red > 1.5 * blue
        assert more > 1.3 * less


def test_a_blade_has_the_chord_and_the_twist_of_the_scenario(stage):
    """At six tenths of the radius: width of the solid across the blade, and its angle to the disc."""
    engine = stage.rotary_engine
    blade, radius = engine.blade, engine.disc_radius_m
    parts = nose(stage.figure, engine)
    corners = parts.turning.posed({}).places - [stage.figure.hub[0], 0.0, stage.figure.hub[2]]
    at = corners[np.isclose(-corners[:, 2], 0.55 * radius, atol=0.02) & (abs(corners[:, 1]) < 0.3)]
    spread = at[np.argmax(at[:, 1])] - at[np.argmin(at[:, 1])]
    chord = 2.0 * radius * np.interp(0.55, blade.radius_share, blade.chord_per_diameter)
    assert np.hypot(spread[0], spread[1]) == pytest.approx(chord, rel=0.02)
    twist = math.atan2(spread[0], spread[1])
    sense = math.copysign(1.0, engine.spin_rad_s)
    assert twist == pytest.approx(sense * np.interp(0.55, blade.radius_share, blade.blade_angle_rad), abs=0.02)


def test_what_is_too_quick_for_the_eye_is_a_steady_disc(session, stage):
    session.show("engine")
    still = [shape for shape in flat(shapes(session, stage)) if isinstance(shape, Facets)]
    assert len(still) == 4
    session.engine.pace.pick(1.0)
    found = list(flat(shapes(session, stage)))
    assert len([shape for shape in found if isinstance(shape, Facets)]) == 2
    veils = [shape for shape in found if isinstance(shape, Veil)]
    assert len(veils) == 2
    later(session, 0.1)
    again = [shape for shape in flat(shapes(session, stage)) if isinstance(shape, Veil)]
    assert all(np.array_equal(one.polygons, two.polygons) for one, two in zip(veils, again, strict=True))


def test_bicycle_wheels_are_the_angular_momentum(session, stage):
    """Rim and tyre of 1.3 kg at .33 m, at 6 m/s: 2.57 kg m2/s each, to two digits."""
    session.show("engine")
    view = session.snapshot().view
    said = [text.text for text in texts(shapes(session, stage))]
    for engine in (view.rotary, view.fixed):
        wheels = abs(engine.angular_momentum_kg_m2_s) / (1.3 * 0.33 * 6.0)
        (number,) = (float(word.replace(",", "")) for word in [f"{float(f'{wheels:.2g}'):,.0f}"])
        assert f"Spins as much as {number:,.0f} bicycle wheels" in said
        assert number == pytest.approx(wheels, rel=0.06)


def test_the_mass_that_turns_is_told_and_left_out_where_it_is_not_known(session, stage):
    """Of the rotary cylinders, crankcase, pistons, rods and propeller, of the flat-four the shaft and what is on it."""
    session.show("engine")
    said = {text.text for text in texts(shapes(session, stage))}
    engines = (stage.rotary_engine, stage.fixed_engine)
    assert {f"{engine.turning_mass_kg / 0.45359237:.0f} lb of it turn" for engine in engines} <= said
    assert engines[0].turning_mass_kg > 3.0 * engines[1].turning_mass_kg
    unknown = engine_setup(replace(built(BIPLANE).powerplants["rotary"], contributions=(GIVEN,)))
    assert math.isnan(unknown.turning_mass_kg)


def test_why_the_slower_one_spins_more_is_said_in_turn_with_by_how_much_and_only_while_true(session):
    session.show("engine")
    said = set()
    for _ in range(60):
        later(session, 0.25)
        said.add(session.snapshot().caption.key)
    assert said == {"caption.engine_why", "caption.engine_ratio"}
    session.engine.set("fixed_spin_rad_s", 0.2)
    later(session, 5.0)
    view, said = session.snapshot().view, set()
    assert abs(view.fixed.spin_rad_s) < abs(view.rotary.spin_rad_s)
    for _ in range(60):
        later(session, 0.25)
        said.add(session.snapshot().caption.key)
    assert said == {"caption.engine_ratio"}


def test_both_noses_face_the_camera():
    assert (TURN @ [1.0, 0.0, 0.0])[0] < -0.9


def test_a_sentence_about_the_engines_stands_for_two_seconds_while_a_hand_goes_to_and_fro(session):
    session.show("engine")
    stood, before = [], None
    for frame in range(20 * 60):
        session.engine.set("rotary_spin_rad_s", 0.5 + 0.5 * math.sin(0.2 * frame))
        session.tick(1.0 / 60.0)
        said = session.snapshot().caption
        if said != before:
            stood.append(0)
            before = said
        stood[-1] += 1
    assert len(stood) > 4
    assert min(stood[:-1]) >= 2.0 * 60 - 1
