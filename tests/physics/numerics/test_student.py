"""Student's t beside an independent library, and what it costs to ask for it."""

import subprocess
import sys
from math import inf

import pytest
from scipy.stats import norm, t

from sim.numerics.student import student_95


@pytest.mark.parametrize("freedoms", [1, 2, 3, 4, 7, 10, 29, 99, 100, 101, 0.7, 3.4, 1e7])
def test_a_reach_is_that_of_the_distribution(freedoms):
    assert student_95(freedoms) == pytest.approx(t.ppf(0.975, freedoms), rel=1e-12)


def test_of_a_known_error_it_is_that_of_the_normal_distribution():
    assert student_95(inf) == pytest.approx(norm.ppf(0.975), rel=1e-14)


def test_few_past_builds_load_no_library():
    asked = "import sys; from sim.numerics.student import student_95; student_95(2); sys.exit('scipy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", asked], check=False).returncode == 0
