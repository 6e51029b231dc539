"""``whirlgate link``: its sentence and table by their numbers, its picture by its lines."""

import json
import math

import pytest
from airplanes import TRIPLANE

from sim.model.model import model
from sim.studies.link import link
from sim.synchronizer.leak import Leak
from viz.figures.link import draw


def test_the_sentence_and_the_rows(run):
    found = json.loads(run("link", "tollgate", "--json").stdout)
    shown = run("link", "tollgate").stdout
    told = " ".join(shown.split())
    by_kind = {one["kind"]: one for one in found["links"]}
    grown = {kind: f"{one['lead_change_deg']:.1f}°" for kind, one in by_kind.items()}
    best = (
        "rotary: of the three a rod, which is fitted, keeps its part of the lead best. From 600 to 1250 rpm it grows by"
    )
    assert f"{best} {grown['rod']}; that of an oil column by {grown['oil']}." in told
    for kind in ("shaft", "oil"):
        (line,) = (line for line in shown.splitlines() if line.startswith(f"  {kind} "))
        one = by_kind[kind]
        numbers = [f"{one['time_part_ms']:.2f} ms", *(f"{lead['lead_deg']:.1f}°" for lead in one["leads"])]
        assert all(number in line for number in numbers)
    assert f"lock, barrel and flight take {found['rest_ms']:.2f} ms more" in told
    assert f"By the table link {found['computed_ms']:.2f} ms" in told
    assert len(shown.splitlines()) <= 34


def test_all_adds_the_stages_and_the_air(run):
    found = json.loads(run("link", "tollgate", "--json").stdout)
    told = run("link", "tollgate", "--all").stdout
    assert "Stages of the rod fitted" in told
    for row in found["oil"]:
        assert any(
            f"{100.0 * row['air']:.1f} %" in line and f"{row['lead_change_deg']:.1f}°" in line
            for line in told.splitlines()
        )


def test_another_link_is_named_as_fitted(run):
    told = " ".join(run("link", "tollgate", "--set", "link.kind='shaft'").stdout.split())
    assert "; a shaft, which is fitted, " in told


def test_links_that_are_alike_are_said_to_be(run):
    told = " ".join(run("link", "tollgate", "--set", "link.length=0 ft").stdout.split())
    found = json.loads(run("link", "tollgate", "--set", "link.length=0 ft", "--json").stdout)
    (change,) = {round(one["lead_change_deg"], 9) for one in found["links"]}
    assert "all three links keep their part of the lead alike. From 600 to 1250 rpm it grows by" in told
    assert f"grows by {change:.1f}°." in told
    assert "best" not in told


def test_wrong_input(run):
    result = run("link", "tollgate", "--powerplant", "flat_for")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == '--powerplant: must be one of rotary, flat_four, got "flat_for"; did you mean flat_four?\n'


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_lines_of_the_picture_are_the_leads(units):
    answer = link(model("tollgate"))
    (panel,) = draw(answer, units).axes
    lines = {line.get_label().split(":")[0].split(",")[0]: line for line in panel.get_lines()}
    for one in answer.links:
        rpm, lead = lines[one.kind].get_data()
        for each in one.leads:
            at = min(range(len(rpm)), key=lambda i, each=each: abs(rpm[i] - each.rpm))
            slope = (lead[-1] - lead[0]) / (rpm[-1] - rpm[0])
            assert lead[at] + slope * (each.rpm - rpm[at]) == pytest.approx(each.lead_deg, rel=1e-9)
    assert len(panel.collections) == 3


@pytest.mark.parametrize("settings", [(), ("link.kind='oil'", "link.leak_speed=200 rpm")], ids=["tight", "leaky"])
def test_the_picture_reaches_as_high_as_every_lead_that_is_told_and_no_higher_than_it_must(settings):
    """A link that leaks takes no end of lead where it hardly trips: that is left out, half as much is room."""
    answer = link(model("tollgate", settings))
    (panel,) = draw(answer, "us").axes
    told = [lead.lead_deg + lead.lead_sd_deg for one in answer.links for lead in one.leads if lead.lead_deg is not None]
    low, top = panel.get_ylim()
    assert low == 0.0
    assert max(told) < top <= 1.5 * max(told) * (1.0 + 1e-9)
    names = [text for text in panel.texts if text.get_text() in ("idle", "cruise", "full")]
    assert len(names) == 3
    assert all(0.9 * top < text.get_position()[1] < top for text in names)


def test_its_picture_bears_the_caution_of_timing():
    import viz
    from sim.units.quantities import caution

    figure = viz.figure(link(model("tollgate")))
    assert " ".join(figure.get_supxlabel().split()) == caution("history")


LEAKY = ("--set", "link.kind='oil'", "--set", "link.leak_speed=200 rpm")


def test_a_leak_is_told_with_what_it_takes_and_where_it_takes_all(run):
    found = json.loads(run("link", "tollgate", *LEAKY, "--json").stdout)
    (oil,) = (one for one in found["links"] if one["kind"] == "oil")
    tight = json.loads(run("link", "tollgate", *LEAKY[:2], "--json").stdout)
    (sealed,) = (one for one in tight["links"] if one["kind"] == "oil")
    first, last = oil["leads"][0], oil["leads"][-1]
    assert first["lead_deg"] == pytest.approx(sealed["leads"][0]["lead_deg"] + first["leak_deg"])
    assert first["leak_deg"] > 2.0 * last["leak_deg"] > 0.0
    shown = " ".join(run("link", "tollgate", *LEAKY).stdout.split())
    assert (
        f"its leak takes {first['leak_deg']:.1f}° at 600 rpm and {last['leak_deg']:.1f}° at 1250 rpm. At 200 rpm and "
        "below all that the cam delivers leaks off, and the gun never trips." in shown
    )


def test_every_timing_command_says_where_a_leak_lets_nothing_trip(run):
    wanted = "the gun never trips at 600 rpm: at 900 rpm and below all the oil that the cam delivers leaks off; "
    for command in ("windows", "rate", "link"):
        told = run(command, "tollgate", *LEAKY[:2], "--set", "link.leak_speed=900 rpm")
        assert (told.exit_code, told.stdout) == (1, "")
        assert told.stderr.startswith(wanted), command


def test_commands_agree_on_one_gun_with_a_leak(run):
    """Lead at each speed: that of windows is that of link and what runs behind it, to the digits of JSON."""
    links = json.loads(run("link", "tollgate", *LEAKY, "--json").stdout)
    (oil,) = (one for one in links["links"] if one["kind"] == "oil")
    rows = json.loads(run("windows", "tollgate", *LEAKY, "--json").stdout)["rows"]
    by_speed = {round(row["rpm"]): row["lead_deg"] for row in rows if row["powerplant"] == "rotary"}
    for lead in oil["leads"]:
        behind_deg = links["rest_ms"] * 1e-3 * lead["rpm"] * 6.0
        assert by_speed[round(lead["rpm"])] == pytest.approx(lead["lead_deg"] + behind_deg, rel=1e-9)


def test_a_speed_that_ripples_behind_a_link_that_leaks_has_no_exact_column(run):
    """The reason stands in the sheet and in the JSON, with the angle by which a release may be off at most."""
    words = ("burst", TRIPLANE, "--rounds", 2000, "--set", 'link.leak_speed="300 rpm"')
    rippling = (*words, "--speed-ripple", 0.02, "--ripple-per-rev", 3)
    found = json.loads(run(*rippling, "--json").stdout)
    assert found["exact"] is None
    most_deg = math.degrees(
        Leak(10.0 * math.pi, math.radians(0.8), math.radians(1.4)).most_off_rad(1310 * math.pi / 30.0, 0.02)
    )
    said = f"so that at 1310 rpm each release and passage may be {most_deg:.2g}° off; make the ripple or the leak 0"
    assert said in found["exact_note"]
    assert said in " ".join(run(*rippling).stdout.split())
    assert json.loads(run(*words, "--json").stdout)["exact"]
