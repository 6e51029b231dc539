"""The sheets and figures of the shop: ``scale``, ``layout``, ``balance`` and ``speeds`` alike."""

import pytest

COMMANDS = ("scale", "layout", "balance", "speeds")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", COMMANDS)
def test_every_sheet_carries_its_caution(run, name, units):
    result = run("--units", units, name)
    assert result.exit_code == 0
    assert "licensed engineer" in " ".join(result.stdout.split())


@pytest.mark.parametrize("name", COMMANDS)
def test_a_figure_is_drawn(run, name, tmp_path):
    for ending in ("svg", "png"):
        assert run(name, "--figure", tmp_path / f"{name}.{ending}").exit_code == 0
        assert (tmp_path / f"{name}.{ending}").stat().st_size > 5000
