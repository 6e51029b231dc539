"""The shares that our draws find are those of a function whose shares are known.

Ishigami and Homma's function; its shares as in tests/published/test_ishigami.py.
"""

import numpy as np
import pytest
from scipy.special import ndtr

from sim.sweeps.sampling import halves, mixed
from sim.sweeps.sobol import sobol_shares

A, B = 7.0, 0.1
KNOWN = {"x1": (0.3139, 0.5576), "x2": (0.4424, 0.4424), "x3": (0.0, 0.2437)}


@pytest.mark.parametrize("sampling", ["latin", "sobol"])
def test_our_draws_recover_them(sampling):
    draws = 2**14
    first, second = halves(3, draws, sampling, seed=1)
    every = np.concatenate((first, second, *(mixed(first, second, column) for column in range(3))))
    x1, x2, x3 = (2.0 * ndtr(every) - 1.0).T * np.pi
    answers = np.sin(x1) + A * np.sin(x2) ** 2 + B * x3**4 * np.sin(x1)
    found = {share.key: (share.first_order, share.total_order) for share in sobol_shares(answers, list(KNOWN), draws)}
    for key, shares in KNOWN.items():
        assert found[key] == pytest.approx(shares, abs=0.025)
