"""Which link keeps its lead: angle and time by hand, what differs between the kinds, and what no link changes."""

import math

import pytest
from airplanes import BIPLANE, PARASOL

from sim.errors import InputError
from sim.model.model import model
from sim.studies.link import AIR, link
from sim.studies.windows import windows

KEYS = [
    "link.kind='shaft'", "link.length=1.7 m", "link.material='brass'", "link.mass_ratio=0.35",
    "link.follower_rise=2.5 °", "link.play=0.9 °", "link.windup=0.7 °", "link.trigger_time=0.41 ms",
]  # fmt: skip


@pytest.fixture(scope="module")
def found():
    return link(model("tollgate", KEYS), powerplant="flat_four")


def test_the_lead_is_an_angle_and_a_turn_that_takes_a_time(found):
    """Quarter period of a brass link with a mass at its end, by bisection of its equation; play counts half."""
    low, high = 0.01, math.pi / 2.0 - 1e-9
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if middle * math.tan(middle) < 1.0 / 0.35 else (low, middle)
    for kind, modulus in (("rod", 106e9), ("shaft", 40.1e9)):
        (row,) = (one for one in found.links if one.kind == kind)
        wave = math.sqrt(modulus / 8530.0)
        assert row.wave_m_s == pytest.approx(wave, rel=1e-9)
        time_ms = 0.41 + 1e3 * 0.5 * math.pi * 1.7 / (low * wave)
        assert row.time_part_ms == pytest.approx(time_ms, rel=1e-6)
        assert row.angle_part_deg == pytest.approx(2.5 + 0.45 + 0.7, rel=1e-9)
        for lead in row.leads:
            turn = 360.0 * lead.rpm / 60.0 * time_ms / 1e3
            assert lead.lead_deg == pytest.approx(3.65 + turn, rel=1e-6)
        first, last = row.leads[0], row.leads[-1]
        assert row.lead_change_deg == pytest.approx(last.lead_deg - first.lead_deg, rel=1e-9)
        assert row.fitted is (kind == "shaft")


def test_the_faster_the_wave_the_better_the_lead_is_kept(found):
    by_wave = sorted(found.links, key=lambda one: -one.wave_m_s)
    by_change = sorted(found.links, key=lambda one: one.lead_change_deg)
    assert [one.kind for one in by_wave] == [one.kind for one in by_change] == ["rod", "shaft", "oil"]
    assert found.steadiest.kind == "rod"
    assert [row.air for row in found.oil] == list(AIR)
    changes = [row.lead_change_deg for row in found.oil]
    assert changes == sorted(changes)


def test_link_and_rest_are_the_lead_of_windows(found):
    rows = windows(model("tollgate", KEYS), powerplant="flat_four").rows
    for row, lead in zip(sorted(rows, key=lambda row: row.rpm), found.fitted.leads, strict=True):
        rest_deg = 360.0 * row.rpm / 60.0 * found.rest_ms / 1e3
        assert row.lead_deg == pytest.approx(lead.lead_deg + rest_deg, rel=1e-9)


def test_play_scatters_as_an_even_law_and_the_trigger_with_the_speed(found):
    row = found.fitted
    assert row.angle_sd_deg == pytest.approx(0.9 / math.sqrt(12.0), rel=1e-9)
    for lead in row.leads:
        turn_sd = 360.0 * lead.rpm / 60.0 * row.time_sd_ms / 1e3
        assert lead.lead_sd_deg == pytest.approx(math.hypot(row.angle_sd_deg, turn_sd), rel=1e-9)


def test_a_measured_wave_is_of_its_own_kind_alone():
    told = link(model("tollgate", ["link.wave_speed=4321 m/s"]))
    plain = link(model("tollgate"))
    assert told.fitted.wave_m_s == 4321.0
    others = [(one.wave_m_s, plain_one.wave_m_s) for one, plain_one in zip(told.links, plain.links, strict=True)]
    assert [a == b for a, b in others] == [False, True, True]


@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL])
def test_a_scenario_without_the_table_is_told_what_to_give(airplane, tmp_path):
    file = tmp_path / "bare.toml"
    text = airplane.read_text(encoding="utf-8")
    if "\n[link]" in text:
        before, _, rest = text.partition("\n[link]")
        text = before + "\n[" + rest.partition("\n[")[2]
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        link(model(file))
    assert str(caught.value) in (
        "link: is missing; give the table link with kind and length, as in the bundled scenario tollgate",
        "gun: is missing; give the table gun with the line of fire, as in the bundled scenario tollgate",
    )
