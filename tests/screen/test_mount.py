"""``whirlgate mount``: JSON keys, the sheet's words and cautions, the figure, and what is missing in a sentence."""

import json

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer as answered

from sim.model.model import model
from sim.studies.balance import balance
from sim.studies.mount import mount
from viz.figures.mount import draw


@pytest.fixture(scope="module")
def answer(run):
    return json.loads(run("mount", "--json").stdout)


def test_json_keys(answer):
    case = answer["cases"][0]
    assert {"powerplant", "name", "limit_force_n", "limit_moment_n_m", "bolts", "worst_bolt"} <= set(case)
    assert [len(case["limit_force_n"]), len(case["limit_moment_n_m"])] == [3, 3]
    bolts = {case["powerplant"]: case["bolts"] for case in answer["cases"]}
    assert answer["powerplant"] == "flat_four"
    assert not bolts["rotary"]
    assert {"name", "shear_n", "axial_n"} <= set(bolts["flat_four"][0])
    assert {row["powerplant"] for row in answer["worst_bolts"] + answer["worst_tubes"]} == {"flat_four"}


def test_the_engine_that_hangs_there_can_be_another(run):
    answer = json.loads(run("mount", "--powerplant", "rotary", "--json").stdout)
    assert {row["powerplant"] for row in answer["worst_bolts"] + answer["worst_tubes"]} == {"rotary"}
    by_key = json.loads(run("mount", "--set", "mount.powerplant=rotary", "--json").stdout)
    assert by_key == answer
    result = run("mount", "--set", "mount.powerplant=rotery")
    assert (result.exit_code, result.stderr) == (
        2,
        'mount.powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?\n',
    )


def test_ultimate_is_one_and_a_half_times_limit(answer):
    for case in answer["cases"]:
        assert case["ultimate_force_n"] == pytest.approx([1.5 * part for part in case["limit_force_n"]])
        assert case["ultimate_moment_n_m"] == pytest.approx([1.5 * part for part in case["limit_moment_n_m"]])


def test_every_engine_has_every_case(answer):
    names = {engine: [c["name"] for c in answer["cases"] if c["powerplant"] == engine] for engine in answer["hung"]}
    assert len(names) == 2
    assert len({tuple(cases) for cases in names.values()}) == 1
    assert len(next(iter(names.values()))) == 11


def test_the_rotary_asks_more_of_the_mount(answer):
    """The biplane: its angular momentum is several times that of the fixed engine."""
    swung = [case for case in answer["cases"] if case["name"] == "gyroscopic, right and up"]
    couple = {case["powerplant"]: abs(case["limit_moment_n_m"][2]) for case in swung}
    assert couple["rotary"] > 2.0 * couple["flat_four"]


def test_a_longer_mount_is_a_longer_arm(run):
    drawn, moved = (json.loads(run("mount", "--move", move, "--json").stdout) for move in ("0 mm", "-100 mm"))
    ahead = {name: [one["hung"][name]["ahead_m"] for one in (drawn, moved)] for name in drawn["hung"]}
    assert ahead["flat_four"][1] == pytest.approx(ahead["flat_four"][0] + 0.1)
    assert ahead["rotary"][1] == ahead["rotary"][0]


def test_each_engine_stands_where_the_airplane_balances(run, answer):
    biplane = model(BIPLANE)
    for engine, move in answer["engine_move_m"].items():
        drawn = json.loads(run("mount", "--powerplant", engine, "--move", "0 in", "--json").stdout)["hung"][engine]
        assert move == pytest.approx(balance(biplane, powerplant=engine).engine_move_m, rel=1e-12)
        assert answer["hung"][engine]["ahead_m"] == pytest.approx(drawn["ahead_m"] - move)
    assert set(answer["stands_by"].values()) == {"target"}


def test_everything_that_moves_with_the_engine_hangs_on_the_mount(answer):
    biplane = model(BIPLANE)
    for engine, body in answer["hung"].items():
        moving = [item.mass_kg for item in biplane.mass_state(engine).items if item.moves_with_engine]
        assert body["mass_kg"] == pytest.approx(sum(moving))


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "mount", airplane)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


@pytest.fixture(scope="module")
def drawn():
    answer = mount(model(TRIPLANE))
    return answer, draw(answer, "us")


def test_bolts_stand_where_they_are_seen_from_the_cockpit(drawn):
    answer, figure = drawn
    assert (len(figure.axes), len(answer.hung)) == (2, 2)
    for panel in figure.axes[:1]:
        places = [line.get_xydata()[0].tolist() for line in panel.get_lines() if line.get_marker() == "o"]
        assert places == [pytest.approx([bolt.right_m / 0.0254, -bolt.down_m / 0.0254]) for bolt in answer.bolt_pattern]
        assert panel.get_ylabel() == "above the shaft axis [in]"


def test_each_bolt_bears_its_loads_in_the_worst_case(drawn):
    answer, figure = drawn
    for panel in figure.axes[:1]:
        worst = max(
            (case for case in answer.cases if case.powerplant == answer.powerplant),
            key=lambda case: max(bolt.stress_pa for bolt in case.bolts),
        )
        assert worst.name in panel.get_title(loc="left")
        words = [text.get_text() for text in panel.texts]
        for bolt in worst.bolts:
            (said,) = (text for text in words if text.startswith(f"{bolt.name.replace('_', ' ')}\n"))
            assert said.split("\n")[2] == ("tension" if bolt.axial_n >= 0.0 else "compression")


def test_the_thrust_is_an_upper_bound_of_that_of_the_propeller():
    """At rest, of every engine of four airplanes: the sheet says 0.4 to 0.7 of it."""
    shares = [
        answered("propeller", airplane).powerplants[name].static_thrust_n / hung.thrust_n
        for airplane in (BIPLANE, TRIPLANE, PARASOL, TWO_SEATER)
        for name, hung in answered("mount", airplane).hung.items()
    ]
    assert len(shares) >= 8
    assert 0.35 < min(shares) < max(shares) < 0.75


def test_the_nodes_of_the_truss_are_told_apart_by_marks():
    """Of a truss with a free joint, and lugs that stand differently far ahead."""
    found = answered("mount", TRIPLANE)
    panel = draw(found, "us").axes[1]
    words = [text.get_text() for text in panel.get_legend().get_texts()]
    marks = [line.get_marker() for line in panel.get_lines() if line.get_label() in words]
    assert len(words) == len({node.held for node in found.nodes}) == len(set(marks))
    lugs = sorted(node.place_m[0] / 0.0254 for node in found.nodes if node.held == "engine")
    assert f"lugs {lugs[0]:.4g} in to {lugs[-1]:.4g} in ahead" in [text.get_text() for text in panel.texts]


def test_the_truss_is_drawn_with_the_engine_where_it_stands(drawn):
    answer, figure = drawn
    panel = figure.axes[1]
    inch = 0.0254
    places = {node.name: [node.place_m[0] / inch, -node.place_m[2] / inch] for node in answer.nodes}
    ends = [line.get_xydata().tolist() for line in panel.get_lines() if len(line.get_xdata()) == 2][: len(answer.tubes)]
    for tube, drawn_ends in zip(answer.tubes, ends, strict=True):
        assert drawn_ends == [pytest.approx(places[tube.start]), pytest.approx(places[tube.end])]
    hung = answer.hung[answer.powerplant]
    (cg,) = (line.get_xydata()[0].tolist() for line in panel.get_lines() if line.get_marker() == "P")
    assert cg == pytest.approx([hung.ahead_m / inch, -hung.below_m / inch])
    move = abs(answer.engine_move_m[answer.powerplant]) / inch
    assert f"engine {move:.2f} in " in panel.get_title(loc="left")
    assert panel.get_xlim()[0] > panel.get_xlim()[1]


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_the_figure_is_written(run, tmp_path, ending):
    file = tmp_path / f"bolts.{ending}"
    assert run("mount", "--figure", file).exit_code == 0
    if ending == "svg":
        assert "licensed engineer" in file.read_text(encoding="utf-8")


def bare(tmp_path, keep):
    """Write the biplane with only some of the mount's keys, and without stations."""
    import tomlkit

    document = tomlkit.parse(BIPLANE.read_text(encoding="utf-8"))
    document.pop("mount")
    for engine in document["powerplant"].values():
        engine.pop("station", None)
    document.update(keep)
    file = tmp_path / "mine.toml"
    file.write_text(tomlkit.dumps(document))
    return file


def test_no_mount(run, tmp_path):
    result = run("mount", bare(tmp_path, {}))
    assert (result.exit_code, result.stderr) == (2, "mount: is missing; give the table mount with firewall and bolts\n")


def test_no_place_on_the_mount(run, tmp_path):
    file = bare(tmp_path, {"mount": {"hung": {"rotary": {"ahead": "20 in"}}, "node": {}}})
    result = run("mount", file)
    assert result.exit_code == 2
    engine = file.read_text(encoding="utf-8").split("\n").index("[powerplant.flat_four]") + 1
    other = "or give mount.hung.flat_four.ahead"
    assert result.stderr.splitlines() == [
        f"{file}: mount.firewall: is missing; give the station of the firewall, {other}",
        f"{file}:{engine}: powerplant.flat_four.station: is missing; give the station of the engine's CG, {other}",
    ]


def test_loads_without_bolts(run, tmp_path):
    hung = {"mount": {"hung": {name: {"ahead": "20 in", "mass": "400 lb"} for name in ("rotary", "flat_four")}}}
    file = bare(tmp_path, hung)
    shown = run("mount", file).stdout
    assert "weight at the load factor" in shown
    assert "bolt" not in shown.partition("Next:")[0]
    result = run("mount", file, "--figure", tmp_path / "bolts.svg")
    assert (result.exit_code, result.stderr) == (
        2,
        "--figure: needs the bolts of the mount; give the table mount.bolt\n",
    )


def test_bolts_in_line(run):
    moves = [word for name in ("upper", "lower") for word in ("--set", f"mount.bolt.{name}_left.right=9 in")]
    result = run("mount", *moves)
    said = "the bolts stand in one line, which carries no moment about itself; put one off the line\n"
    assert (result.exit_code, result.stderr) == (1, said)


def test_a_move_to_behind_the_firewall_is_refused(run):
    result = run("mount", "--move", "100 in")
    ahead_m = mount(model(BIPLANE), engine_move_m=0.0).hung["flat_four"].ahead_m
    where = f"below {ahead_m / 0.0254:.4g} in, where the CG on the mount reaches the firewall"
    assert (result.exit_code, result.stderr) == (2, f'--move: must be {where}, got "100 in"\n')
    assert run("mount", "--move", f"{ahead_m - 0.001} m").exit_code == 0


def test_the_load_factor_of_the_other_cases_is_told(run):
    shown = " ".join(run("mount", "--set", "mount.load_factor=4.6").stdout.split())
    assert shown.count("Other cases: load factor 4.6, mount.load_factor of the scenario") == 2


def test_the_sheet_says_why_each_engine_stands_where_it_does(run):
    shown = " ".join(run("mount", "--set", "powerplant.flat_four.move=2 in").stdout.split())
    assert "The engine stands at the CG target, for powerplant.rotary.move is not given." in shown
    assert "The engine stands where powerplant.flat_four.move puts it. The CG target needs it 2.69 in forward" in shown
    asked = " ".join(run("mount", "--move", "1 in aft").stdout.split())
    assert "The engine stands where it was asked to, in place of powerplant.flat_four.move." in asked


def test_nodes_and_tubes_are_printed_as_they_are_cut(run):
    shown = run("mount", "--set", "powerplant.flat_four.move=-2 in").stdout.partition("Nodes of the truss")[2]
    assert shown
    answer = mount(model(BIPLANE, ["powerplant.flat_four.move=-2 in"]))
    for node in answer.nodes:
        words = f"{node.place_m[0] / 0.0254:#.4g} in" if node.place_m[0] else " 0 in"
        named = f"  {node.name.replace('_', ' ')}  "
        assert words in next(line for line in shown.splitlines() if line.startswith(named))
    assert " ".join(shown.split()).count("engine lug") == sum(node.held == "engine" for node in answer.nodes)
