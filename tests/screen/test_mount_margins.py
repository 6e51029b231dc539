"""``whirlgate mount``: the margin of each bolt and tube, the case that sets it, and the tube that would do."""

import json

import pytest
from airplanes import TWO_SEATER

from sim.model.model import model
from sim.structures.sizes import tube_sizes
from sim.studies.mount import mount
from viz.figures.mount import draw


def test_the_worst_tube_is_thick_named_and_above_the_one_behind_it():
    """Of the two-seater, whose right and left tubes lie over each other in the side view."""
    found = mount(model(TWO_SEATER))
    panel = draw(found, "us").axes[1]
    tubes = [line for line in panel.get_lines() if len(line.get_xdata()) == 2][: len(found.tubes)]
    thick = [line.get_linewidth() > 3.0 for line in tubes]
    assert thick == [tube.tube == found.worst_tube for tube in found.tubes]
    assert min(line.get_zorder() for line in tubes if line.get_linewidth() > 3.0) > max(
        line.get_zorder() for line in tubes if line.get_linewidth() < 3.0
    )
    assert found.worst_tube.replace("_", " ") in [text.get_text() for text in panel.texts]


@pytest.fixture(scope="module")
def answer(run):
    return json.loads(run("mount", "--json").stdout)


def test_worst_of_each_bolt_is_the_worst_of_all_cases(answer):
    for row in answer["worst_bolts"]:
        margins = [b["margin"] for case in answer["cases"] for b in case["bolts"] if b["name"] == row["bolt"]]
        assert row["margin"] == min(margin for margin in margins if margin is not None)
    for row in answer["worst_tubes"]:
        margins = [t["margin"] for case in answer["cases"] for t in case["tubes"] if t["name"] == row["tube"]]
        assert row["margin"] == min(margin for margin in margins if margin is not None)


def test_the_least_margins_stand_first_with_the_cases_that_set_them(run, answer):
    shown = run("mount").stdout.partition("limit loads")[0]
    for kind in ("bolt", "tube"):
        row = min(answer[f"worst_{kind}s"], key=lambda row: row["margin"])
        assert answer[f"worst_{kind}"] == row[kind]
        assert row["margin_low"] < row["margin"]
        (line,) = (line for line in shown.splitlines() if line.strip().startswith(f"{kind} "))
        assert " ".join(line.split()) == (
            f"{kind} {row[kind].replace('_', ' ')} {row['margin']:.2f} ({row['margin_low']:.2f}) {row['case']}"
        )


def test_the_least_size_of_a_tube_holds_and_the_next_lighter_one_does_not():
    """Of a determinate mount, whose forces are the same whatever its tubes are."""
    given = "mount.load_factor=14", "mount.material=4130 welded"
    first = mount(model(TWO_SEATER, given))
    assert first.redundancy == 0
    sizes = {size.name: size for size in tube_sizes()}
    names = list(sizes)

    def with_sizes(step):
        chosen = {row.tube: sizes[names[max(names.index(row.least_size) - step, 0)]] for row in first.worst_tubes}
        cut = [
            f"mount.tube.{tube}.{key}={value_m!r} m"
            for tube, size in chosen.items()
            for key, value_m in (("diameter", size.diameter_m), ("wall", size.wall_m))
        ]
        return [row.margin for row in mount(model(TWO_SEATER, (*given, *cut))).worst_tubes]

    assert min(with_sizes(0)) >= 0.0
    lighter = [row.least_size != names[0] for row in first.worst_tubes]
    assert sum(lighter) >= 4
    assert [margin < 0.0 for margin in with_sizes(1)] == lighter


def test_an_unknown_material_is_refused(run):
    keys = "mount.material", "mount.bolt_material"
    result = run("mount", "--set", "mount.material=4130 weldd", "--set", "mount.bolt_material=rubber")
    assert result.exit_code == 2
    assert [line.partition(": must be one of ")[0] for line in result.stderr.splitlines()] == [*keys]
    assert result.stderr.splitlines()[0].endswith('got "4130 weldd"; did you mean 4130 welded?')


def test_a_weaker_bolt_has_less_margin_by_the_share_of_its_strength(run, answer):
    weak = json.loads(run("mount", "--set", "mount.bolt_material=4130 normalised", "--json").stdout)
    for row, other in zip(answer["worst_bolts"], weak["worst_bolts"], strict=True):
        share = (1.0 + other["margin"]) / (1.0 + row["margin"])
        assert 55.0 / 75.0 - 1e-9 <= share <= 95.0 / 125.0 + 1e-9


def test_a_finer_thread_leaves_a_thicker_root(run, answer):
    pitch = [
        word for row in answer["bolt_pattern"] for word in ("--set", f"mount.bolt.{row['name']}.thread_pitch=1/24 in")
    ]
    fine = json.loads(run("mount", *pitch, "--json").stdout)
    for row, other in zip(answer["worst_bolts"], fine["worst_bolts"], strict=True):
        share = (1.0 + other["margin"]) / (1.0 + row["margin"])
        assert 1.0 < share < 1.2 if row["axial_n"] > 0.0 else share == pytest.approx(1.0)
    result = run("mount", "--set", "mount.bolt.upper_left.thread_pitch=1/4 in")
    assert (result.exit_code, result.stderr) == (
        2,
        '--set mount.bolt.upper_left.thread_pitch: must be at most half the diameter, 0.1875 in, got "0.25 in"\n',
    )
