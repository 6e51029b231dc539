"""The whole job by the commands alone, each one run that the sheet before it names: from a drawing to a report.

Nothing is edited by hand that a command knows. What a step wrote is read again in every one that follows.
"""

import json
import re
import shlex

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER

from sim.scenario.reading import load

AIRPLANES = [TRIPLANE, PARASOL, BIPLANE, TWO_SEATER]
CHAIN = ["layout", "balance", "mount", "handling", "report"]


class Shop:
    """A folder with one airplane, its drawing, and every command run there."""

    def __init__(self, run, folder, airplane):
        self._run = run
        self.file = folder / airplane.name
        self.file.write_bytes(airplane.read_bytes())
        self.drawing = folder / "drawing.toml"
        self.drawing.write_bytes((airplane.parent / "drawings" / airplane.name).read_bytes())

    def sheet(self, *words):
        result = self._run(*words)
        assert (result.exit_code, result.stderr) in ((0, ""), (0, "wrote report.html\n")), result.stderr
        return result.stdout

    def answer(self, *words):
        return json.loads(self.sheet(*words, "--json"))


def following(shown, command):
    """Return the words of the command line of that name that a sheet says to run next."""
    said = " ".join(shown[shown.index("Next: ") :].split())
    line = re.search(rf"whirlgate (?:--units si )?({command} .*?)(?:[,;.](?: |$)|$)", said)
    return shlex.split(line.group(1))


@pytest.fixture
def shop(run, tmp_path, monkeypatch, request):
    monkeypatch.chdir(tmp_path)
    return Shop(run, tmp_path, request.param)


def shops(*airplanes):
    return pytest.mark.parametrize("shop", airplanes, ids=lambda path: path.stem, indirect=True)


def changed_keys(before, after):
    """Return the keys of the lines that differ."""
    pairs = zip(before.splitlines(), after.splitlines(), strict=True)
    return {new.partition(" ")[0] for old, new in pairs if old != new}


@shops(*AIRPLANES)
def test_each_sheet_names_the_next_command_of_the_job(shop):
    """From drawing to report: each line as the sheet before it has it, with the file in which all is written."""
    words = ["scale", "drawing.toml", "--write", shop.file.name]
    for name in CHAIN:
        words = following(shop.sheet(*words), name)
        assert words == [name, shop.file.name, *(["--out", "report.html"] if name == "report" else [])]


@shops(*AIRPLANES)
def test_what_is_written_is_what_the_next_command_reads(shop):
    frozen = load(shop.file)
    text = shop.file.read_text(encoding="utf-8")
    scaled = shop.answer("scale", "drawing.toml", "--write", shop.file.name)
    read, engines = load(shop.file), {*frozen.powerplant}
    errors_m = {size["name"]: size["error_m"] for size in scaled["dimensions"]}
    for table, key in (("wing", "span"), ("wing", "chord"), ("tailplane", "chord"), ("fuselage", "length")):
        size_m, true_m = (getattr(getattr(scenario, table), f"{key}_m") for scenario in (read, frozen))
        assert size_m == pytest.approx(true_m, abs=4.0 * errors_m[f"{table}.{key}"])
        assert size_m == pytest.approx(
            next(d["value_m"] for d in scaled["dimensions"] if d["name"] == f"{table}.{key}"), abs=2e-4
        )

    balanced = shop.answer("balance", shop.file, "--write", shop.file)
    assert any("disagree" in remark for remark in balanced["remarks"]) == (shop.file.name != BIPLANE.name)
    name = balanced["powerplant"]
    assert load(shop.file).airplane.mass_kg == pytest.approx(balanced["mass_kg"], rel=1e-4)
    assert not any("disagree" in remark for remark in shop.answer("balance", shop.file)["remarks"])
    written = shop.file.read_text(encoding="utf-8")
    sizes = {"span", "chord", "gap", "stagger", "height", "length", "width", "depth", "diameter", "leading_edge"}
    weights = {"mass", "arm", "thrust_arm", "inertia_roll", "inertia_pitch", "inertia_yaw", "inertia_product"}
    assert changed_keys(text, written) <= sizes | weights | {"station", "waterline"}

    move_m = balanced["engine_move_m"]
    way = f"{abs(move_m)!r} m {'aft' if move_m > 0.0 else 'forward'}"
    shown = shop.answer("balance", shop.file, "--move", way, "--write", shop.file)
    moved = shop.answer("balance", shop.file)
    assert moved["engine_move_m"] == pytest.approx(0.0, abs=1e-8)
    for key in ("mass_kg", "cg_station_m", "cg_error_m", "cg_percent_mac", "engine_station_m"):
        assert moved[key] == pytest.approx(shown[key], rel=1e-8)
    assert moved["cg_percent_mac"] == pytest.approx(moved["target_percent_mac"], abs=1e-6)

    mounted = shop.answer("mount", shop.file)
    assert set(mounted["engine_move_m"]) == engines
    assert mounted["engine_move_m"][name] == pytest.approx(move_m, abs=1e-8)
    flown = shop.answer("handling", shop.file)["masses"]
    assert set(flown) == engines
    assert flown[name]["mass_kg"] == pytest.approx(moved["mass_kg"], rel=1e-12)
    assert flown[name]["cg_percent_mac"] == pytest.approx(moved["target_percent_mac"], abs=1e-6)
    assert {flown[other]["mass_kg"] == flown[name]["mass_kg"] for other in engines - {name}} == {False}


@pytest.mark.slow
@shops(TRIPLANE, PARASOL, TWO_SEATER)
def test_the_report_says_what_the_commands_wrote(shop):
    """Of the three that differ most; a report takes the better part of a minute, and the biplane has one of its own."""
    shop.sheet("scale", "drawing.toml", "--write", shop.file.name)
    shop.sheet("balance", shop.file, "--write", shop.file)
    shop.sheet("balance", shop.file, "--move", "1 1/4 in aft", "--write", shop.file)
    before = shop.file.read_bytes()
    balanced = shop.sheet("balance", shop.file)
    shop.sheet(*following(shop.sheet("handling", shop.file), "report"))
    page = shop.file.with_name("report.html").read_text(encoding="utf-8").replace("\N{NO-BREAK SPACE}", " ")
    assert shop.file.read_bytes() == before
    assert "1.25 in" in page
    for label in ("loaded weight", "loaded CG station"):
        told = re.search(rf"{label} +(.*)", balanced).group(1).strip().replace("\N{NO-BREAK SPACE}", " ")
        assert told in page
