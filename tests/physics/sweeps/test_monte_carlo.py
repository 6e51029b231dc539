"""Draws, their quantiles and Sobol's indices: of functions whose answer is known, then of a scenario."""

from typing import get_args

import numpy as np
import pytest
from airplanes import BIPLANE
from scipy.special import ndtr
from scipy.stats import truncnorm

from sim.errors import InputError, NoAnswerError
from sim.sweeps.monte_carlo import spread
from sim.sweeps.sampling import Sampling, halves, mixed, truncated
from sim.sweeps.sobol import sobol_shares

STALL = "speeds.powerplants.rotary.stall_m_s"
RATIO = "compare.powerplants.rotary.momentum_ratio"


def indices(function, count, draws, sampling):
    """Return (first order, total order) by input, for a function of standard normal numbers."""
    first, second = halves(count, draws, sampling, seed=3)
    every = np.concatenate((first, second, *(mixed(first, second, column) for column in range(count))))
    found = sobol_shares(function(every.T), [str(column) for column in range(count)], draws)
    by_key = {share.key: share for share in found}
    return [(by_key[str(column)].first_order, by_key[str(column)].total_order) for column in range(count)], found


@pytest.mark.parametrize("sampling", get_args(Sampling))
def test_a_sum_is_shared_by_the_squares_of_its_weights(sampling):
    """Var(Σ a x) = Σ a² for standard normal x: shares 9/14, 4/14, 1/14, alone and together."""
    shares, ranked = indices(lambda x: 3.0 * x[0] - 2.0 * x[1] + x[2], 3, 4096, sampling)
    expected = [(9 / 14, 9 / 14), (4 / 14, 4 / 14), (1 / 14, 1 / 14)]
    assert np.array(shares) == pytest.approx(np.array(expected), abs=0.03)
    assert [share.key for share in ranked] == ["0", "1", "2"]


def test_a_product_is_made_by_both_together_and_by_neither_alone():
    shares, _ = indices(lambda x: x[0] * x[1], 2, 8192, "sobol")
    assert np.array(shares) == pytest.approx(np.array([(0.0, 1.0), (0.0, 1.0)]), abs=0.06)


def test_the_band_holds_the_known_share():
    first, second = halves(1, 64, "latin", seed=1)
    found = sobol_shares(np.concatenate((first, second, second))[:, 0], ["only"], 64)[0]
    assert found.total_low < 1.0 < found.total_high


@pytest.mark.parametrize("sampling", get_args(Sampling))
def test_draws_are_standard_normal_and_even(sampling):
    """One draw in each of 256 equally likely slots, in every column of both halves."""
    for half in halves(5, 256, sampling, seed=9):
        slots = np.sort((ndtr(half) * 256).astype(int), axis=0)
        assert (slots == np.arange(256)[:, None]).all()


@pytest.mark.parametrize("sampling", get_args(Sampling))
def test_the_halves_do_not_run_in_step(sampling):
    """With 32 draws in 40 columns: the correlation of each pair is that of chance, 1/sqrt(32)."""
    first, second = halves(40, 32, sampling, seed=1)
    paired = np.array([np.corrcoef(first[:, i], second[:, i])[0, 1] for i in range(40)])
    assert abs(paired).max() < 4.0 / np.sqrt(32)
    assert np.sqrt((paired**2).mean()) < 0.3


@pytest.mark.parametrize("sampling", get_args(Sampling))
def test_the_same_seed_gives_the_same_draws(sampling):
    assert np.array_equal(halves(3, 16, sampling, seed=5), halves(3, 16, sampling, seed=5))
    assert not np.array_equal(halves(3, 16, sampling, seed=5), halves(3, 16, sampling, seed=6))


@pytest.fixture(scope="module")
def keyed(tmp_path_factory):
    """Return the biplane without items and stations, which flies at the mass of its keys."""
    text = BIPLANE.read_text(encoding="utf-8")
    path = tmp_path_factory.mktemp("keyed") / "biplane.toml"
    path.write_text(text[: text.index("# ---- the shop")], encoding="utf-8")
    return str(path)


@pytest.fixture(scope="module")
def stall(keyed):
    return spread(keyed, collect=[STALL], draws=128)


@pytest.mark.slow
def test_the_stall_hangs_on_the_weight_alone(stall):
    assert [one.column.key for one in stall.inputs if one.matters] == ["airplane.mass"]
    share = stall.results[0].shares[0]
    assert share.key == "airplane.mass"
    assert share.total_low < 1.0 < share.total_high


@pytest.mark.slow
def test_quantiles_follow_from_the_weight(stall):
    """V ∝ sqrt(m): the median is that of 1400 lb, the ends those of 1400 ∓ 1.645 x 15 lb."""
    result = stall.results[0]
    assert result.median == pytest.approx(result.nominal, rel=1e-4)
    for end, sign in ((result.low_5, -1.0), (result.high_95, 1.0)):
        assert end == pytest.approx(result.nominal * np.sqrt(1.0 + sign * 1.645 * 15.0 / 1400.0), rel=4e-4)


@pytest.mark.slow
def test_each_row_is_a_single_run(keyed, stall):
    from sim.model.model import model
    from sim.studies.speeds import speeds

    for row in stall.rows[:3]:
        answer = speeds(model(keyed, [f"airplane.mass={row.settings[0]!r} kg"]))
        assert row.results[0] == pytest.approx(answer.powerplants["rotary"].stall_m_s, rel=1e-12)


@pytest.mark.slow
def test_two_workers_and_another_call_give_the_same(keyed, stall):
    assert spread(keyed, collect=[STALL], draws=128, workers=2) == stall


@pytest.mark.slow
def test_items_go_by_their_name():
    found = spread(BIPLANE, collect=["balance.mass_kg"], draws=8, settings=[])
    keys = [one.column.key for one in found.inputs]
    assert "item.upper wing.mass" in keys
    assert "item.1.mass" not in keys


def refused(**question) -> list[str]:
    with pytest.raises(InputError) as error:
        spread(**{"scenario": BIPLANE, "collect": [STALL], **question})
    return str(error.value).splitlines()


def test_every_fault_comes_at_once():
    assert refused(draws=100, collect=["summary.first.left"], settings=[]) == [
        'draws: must be a power of two from 8 to 65536, as 64 or 128, got "100"',
        (
            'collect summary.first.left: must name something in "first", which holds powerplant, left_rudder_share, '
            "left_elevator_share, right_rudder_share, right_elevator_share, "
            + ", ".join(
                f"{side}_{control}_share_{end}"
                for side in ("left", "right")
                for control in ("rudder", "elevator")
                for end in ("low", "high")
            )
            + ', got "left"'
        ),
    ]


def test_words_have_no_spread():
    key = "compare.powerplants.rotary.kind"
    assert refused(collect=[key]) == [f"collect {key}: must be a number where every ± is sampled"]


def test_a_scenario_without_a_tolerance_has_nothing_to_draw(tmp_path):
    import re

    text = BIPLANE.read_text(encoding="utf-8")
    plain = tmp_path / "plain.toml"
    plain.write_text(re.sub(r' ±[^"\n]*"', '"', text), encoding="utf-8")
    assert refused(scenario=str(plain)) == ['draws: must have a ± in the scenario to sample, as in "1400 lb ± 15 lb"']


def test_what_hangs_on_no_tolerance_has_no_spread():
    with pytest.raises(NoAnswerError) as error:
        spread(BIPLANE, collect=["windows.rows.1.rpm"], draws=8)
    assert str(error.value) == "no spread: none of the ± in the scenario changes anything in what is collected"


def test_draws_stay_within_the_limits_of_their_key():
    """Against scipy's truncated normal, probability for probability; a limit that no draw meets changes no bit."""
    normal = halves(3, 256, "latin", seed=5)[0]
    least, most = np.array([-1.9, -40.0, -np.inf]), np.array([np.inf, 0.4, 60.0])
    cut = truncated(normal, least, most)
    expected = truncnorm.ppf(ndtr(normal), least, most)
    assert cut == pytest.approx(expected, rel=1e-9)
    assert (cut[:, 0] > -1.9).all()
    assert (cut[:, 1] < 0.4).all()
    assert (cut[:, 2] == normal[:, 2]).all()


def test_a_mass_of_two_standard_deviations_has_an_answer_in_every_draw():
    setting = "item.struts and wires.mass=2 lb ± 1.2 lb"
    found = spread(BIPLANE, collect=[STALL], draws=16, seed=2, settings=[setting])
    drawn = [one.column.key for one in found.inputs if one.matters]
    column = drawn.index("item.struts and wires.mass")
    assert min(row.settings[column] for row in found.rows) > 0.0
    assert not [row.reason for row in found.rows if row.reason]
