"""Arrows run one way: ground <- physics folders <- scenario <- studies <- viz."""

from pathlib import Path

GROUND = {path.stem for path in (Path(__file__).parents[2] / "sim").glob("*.py")} | {"__version__"}
DRAWING = {"click", "matplotlib", "pygame", "rich", "jinja2", "ezdxf"}
OPEN_TO_VIZ = ("sim.studies", "sim.errors", "sim.vocabulary", "sim.quantity", "sim.frames", "sim.__version__")


def layer(module: str) -> int:
    """Return how high a module of sim stands: 0 ground, 1 physics, 2 scenario, 3 studies."""
    part = module.removeprefix("sim.").split(".")[0].removesuffix(".py")
    return {"scenario": 2, "studies": 3}.get(part, 0 if part in GROUND else 1)


def test_sim_never_looks_up(sim_sources):
    up = [
        f"{source.name} imports {module}"
        for source in sim_sources
        for module in source.imports
        if module.startswith("sim.") and layer(module) > layer(source.name.replace("/", "."))
    ]
    assert not up


def test_sim_neither_draws_nor_parses_a_command_line(sim_sources):
    found = [(s.name, m) for s in sim_sources for m in s.imports if m.split(".")[0] in DRAWING | {"viz"}]
    assert not found


def test_sympy_stays_in_derivation(sim_sources):
    found = [
        s.name for s in sim_sources if not s.name.startswith("sim/derivation") and any("sympy" in m for m in s.imports)
    ]
    assert not found


def test_viz_enters_by_the_studies(sources):
    found = [
        f"{source.name} imports {module}"
        for source in sources
        if source.name.startswith("viz/")
        for module in source.imports
        if module.startswith("sim.") and not module.startswith(OPEN_TO_VIZ)
    ]
    assert not found


def test_pygame_is_imported_where_pixels_are_made(sources):
    found = {s.name for s in sources if any(m.split(".")[0] == "pygame" for m in s.imports)}
    assert all(name.startswith("viz/stage/") for name in found)


def test_no_print_and_no_clock_in_sim(sim_sources):
    found = [s.name for s in sim_sources if {"time", "datetime"} & {m.split(".")[0] for m in s.imports}]
    assert not found
    assert not [s.name for s in sim_sources if "print(" in s.text.replace("pprint(", "")]
