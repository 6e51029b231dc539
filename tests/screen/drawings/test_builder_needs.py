"""What a builder who has the book alone needs to buy, to cut and to press in: by its numbers."""

import re

import pytest
from displays import VARIANTS, built
from shapely import Polygon

from sim.display.assembly.stock import stock
from viz.drawings import sundries
from viz.drawings.bench import drift, shaft_gaps, told_gaps
from viz.drawings.book_lists import tools
from viz.drawings.bought_sheets import TOLD, _flange
from viz.drawings.build_steps import TEXTS
from viz.drawings.flat_parts import cut_parts
from viz.drawings.raw_stock import block_table


def length_m(text):
    number, unit = re.match(r"([\d.]+) (mm|in)", text).groups()
    return float(number) * {"mm": 1e-3, "in": 0.0254}[unit]


@pytest.mark.parametrize("kind", VARIANTS)
def test_faces_of_a_shaft_stand_apart_by_the_plates_and_what_is_said(kind):
    """Of what is pinned to it behind and before: the difference of their places, less that of the plates."""
    assembly = built(kind)
    stack = assembly.part("base").z_to_m - assembly.part("rear plate").z_from_m
    shafts = [part for part in assembly.parts if part.name.endswith("shaft")]
    said = re.findall(r"([\w ]+), from ([\w ]+) to ([\w ]+): M \+ ([\d.]+ \w+)", told_gaps(assembly))
    assert [name.strip() for name, *_ in said] == [shaft.name for shaft in shafts]
    for (_, behind, before, told), (_, rear, front, sleeves) in zip(said, shaft_gaps(assembly), strict=True):
        assert behind.endswith("pulley")
        assert before in ("cam hub", "clutch flange", "shaft collar")
        apart = front.z_from_m - rear.z_to_m - stack
        assert sleeves == pytest.approx(apart, abs=1e-7)
        assert length_m(told) == pytest.approx(apart, abs=3e-5)


def test_gaps_of_the_default_are_those_of_its_sleeves():
    assert re.findall(r"M \+ ([\d.]+) mm", told_gaps(built("default"))) == ["12.20", "24.50"]


def test_what_no_clamp_reaches_in_the_display_is_pinned_on_the_bench():
    """The brake hub's pin before the brake disc hides it, this before the crank pulley hides its screws; belts too."""
    said = TEXTS["Shafts and drive"]
    order = [
        "cross pin of the brake hub",
        "screw the brake disc",
        "pin the pulleys",
        "lay the belts",
        "slide all shafts",
    ]
    places = [said.index(each) for each in order]
    assert places == sorted(places)
    assert "press" not in TEXTS["Brake"]


@pytest.mark.parametrize("kind", VARIANTS)
def test_drift_and_prop_pass_between_brake_disc_and_pulley(kind):
    assembly = built(kind)
    disc, pulley = assembly.part("brake disc"), assembly.part("crank pulley")
    pin = min(
        (each for each in assembly.parts if each.name == "cross pin" and each.y_m == pulley.y_m),
        key=lambda each: abs(each.z_from_m - pulley.z_from_m),
    )
    middle, boss = (pin.z_from_m + pin.z_to_m) / 2.0, float(pulley.slabs[0].outline_m[:, 0].max())
    heads = [each.z_to_m for each in assembly.fasteners if each.name == "brake disc screw"]
    told = {name: length_m(each) for name, each in drift(assembly).items()}
    assert told["long"] > float(disc.slabs[0].outline_m[:, 0].max()) - boss
    half = told["thick"] / 2.0
    assert middle - half > max(heads)
    assert middle + half < pulley.slabs[1].z_from_m + 2e-5


@pytest.mark.parametrize("kind", VARIANTS)
def test_a_pulley_is_bought_with_a_boss_that_its_pin_is_shorter_than(kind):
    assembly = built(kind)
    for pulley in (part for part in assembly.parts if part.name.endswith("pulley")):
        assert "pilot bore" in pulley.standard
        assert "H7" not in pulley.standard
        said = re.search(r"boss diameter at least ([\d /]*\d)( in)?", pulley.standard)
        least = sum(eval(each) for each in said[1].split()) * (25.4 if said[2] else 1.0)
        pins = [each for each in assembly.parts if each.name == "cross pin" and each.x_m == pulley.x_m]
        (pin,) = (
            each for each in pins if each.y_m == pulley.y_m and pulley.z_from_m < each.z_from_m < pulley.slabs[0].z_to_m
        )
        long = 1e3 * float(pin.slabs[0].outline_m[:, 0].max() - pin.slabs[0].outline_m[:, 0].min())
        assert least - long >= 0.5
        assert least <= 2e3 * float(pulley.slabs[0].outline_m[:, 0].max()) + 0.01


@pytest.mark.parametrize("kind", ["default", "inch"])
def test_the_grip_s_spindle_passes_arm_washer_and_nut_and_no_finger_is_lost(kind):
    """Washer 1.6 and nut 4 of ISO 7089 and 4035, or 1/16 in and 3/16 in; 25 mm from its end to the base."""
    assembly = built(kind)
    arm, grip = assembly.part("crank arm"), assembly.part("grip")
    number, inch = re.search(r"spindle cut to ([\d./]+)( in)?", grip.standard).groups()
    long = eval(number) * (25.4 if inch else 1.0)
    nut = (1.0 / 16.0 + 3.0 / 16.0) * 25.4 if inch else 1.6 + 4.0
    assert long >= 1e3 * arm.thickness_m + nut - 1e-6
    assert 1e3 * arm.z_to_m - long - 1e3 * assembly.part("base").z_to_m >= 25.0


def test_shim_rings_fit_round_what_they_are_laid_on():
    """Shaft 10, stop bush 8, brake screw M5, cap screw M3; round a cap screw they lie on lead cap and base."""
    assembly = built("default")
    said = sundries.shims(assembly)
    assert re.findall(r"(?:for|,|and) ([\d.]+) mm(?= and|,)", said.partition("0.1")[0]) == ["10", "8", "5", "3"]
    cap = assembly.part("lead cap").slabs[0]
    screws = [each for each in assembly.fasteners if each.name == "cap screw" and "lead cap" in each.joins]
    for screw in screws:
        far = 1e3 * (screw.x_m**2 + screw.y_m**2) ** 0.5
        assert far + 3.0 <= 1e3 * float(cap.outline_m[:, 0].max())
        assert far - 3.0 >= 13.0


def test_the_flange_of_the_light_barrier_is_countersunk_for_its_screws():
    assembly = built("default")
    said = TOLD["light barrier"].format(short="", beyond="", **_flange(assembly))
    wide, clear = map(float, re.search(r"by 90° to ⌀([\d.]+) from .* passes ([\d.]+) before", said).groups())
    screw = next(each for each in assembly.fasteners if each.name == "light barrier screw")
    assert screw.head == "sunk"
    assert wide == pytest.approx(1e3 * stock("metric").thread(screw.thread).heads_m["sunk"][0])
    flange = assembly.part("light barrier").slabs[0]
    assert clear == pytest.approx(1e3 * (assembly.part("flag").z_from_m - flange.z_to_m))
    assert wide / 2.0 < 13.0 - 9.5


def test_the_light_barrier_s_sizes_are_those_drawn():
    sensor = built("default").part("light barrier")
    flange, web, body = sensor.slabs
    size = [1e3 * float(slab) for slab in (body.outline_m.max(axis=0) - body.outline_m.min(axis=0))]
    assert f"body {size[0]:g} × {size[1]:g} × {1e3 * sensor.thickness_m:g} mm" in sensor.standard
    deep = 1e3 * float(web.outline_m[:, 0].min() - body.outline_m[:, 0].min())
    assert f"{deep:g} mm (0.35 in) deep" in sensor.standard
    tabs = [1e3 * float(each) for each in (flange.outline_m.max(axis=0) - flange.outline_m.min(axis=0))]
    thick = 1e3 * (flange.z_to_m - flange.z_from_m)
    assert f"flange {tabs[1]:g} × {tabs[0]:g} × {thick:g} mm" in sensor.standard


@pytest.mark.parametrize("kind", VARIANTS)
def test_every_printed_part_has_filament_or_a_block_as_large(kind):
    assembly = built(kind)
    printed = {part.name: part for part in assembly.parts if part.process == "printed"}
    (table,) = block_table(assembly)
    names, filament, blocks, sizes = (table.columns[place].cells for place in (1, 3, 4, 5))
    assert set(names) == set(printed)
    assert set(filament) <= {"PETG", "PLA or PETG"}
    unit = 25.4 if assembly.hardware == "inch" else 1.0
    for name, block, size in zip(names, blocks, sizes, strict=True):
        part = printed[name]
        assert block in (part.material, "–")
        assert (block == "–") == (part.material == "PLA")
        *_, thick = (unit * float(each) for each in size.split(" × "))
        assert thick > 1e3 * part.thickness_m + 1.0


def test_glands_have_their_drill_and_paint_its_two_coats(exhibit):
    """Ten square metres a litre; faces and edges of all that is of plywood."""
    assert "12.50" in " ".join(tools(exhibit.assembly, exhibit))
    area = 0.0
    for one in cut_parts(exhibit):
        if one.part.material == "birch plywood":
            face = Polygon(one.part.outline_m)
            area += one.quantity * (2.0 * face.area + face.length * one.part.thickness_m)
    (line,) = (each for each, _ in sundries.bought(exhibit, exhibit.assembly) if "matt paint" in each)
    litres = float(re.search(r"([\d.]+) l$", line)[1])
    assert 0.2 * area <= litres < 0.2 * area + 0.25
