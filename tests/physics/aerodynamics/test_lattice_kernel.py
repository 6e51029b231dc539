"""A horseshoe vortex against the law of Biot and Savart integrated along it."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from sim.aerodynamics.lattice import lattice
from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_panels import LiftingPlane, panels, strips

SWEPT = LiftingPlane(7.4, 1.2, 0.7, 0.3, 0.2, height_m=-0.2, stagger_m=0.1)


def path_velocity(left, right, point):
    """Return the velocity of one horseshoe by quadrature along its three parts, legs to a long way aft."""

    def part(start, way, length):
        def flow(s, axis):
            apart = point - (start + s * way)
            return np.cross(way, apart)[axis] / np.linalg.norm(apart) ** 3 / (4.0 * math.pi)

        near = np.clip(way @ (point - start), 0.0, length)
        return np.array(
            [
                sum(
                    quad(flow, a, b, args=(axis,), epsabs=1e-12, limit=400)[0]
                    for a, b in ((0.0, near), (near, near + 50.0), (near + 50.0, length))
                    if b > a
                )
                if length > 100.0
                else quad(flow, 0.0, length, args=(axis,), epsabs=1e-12)[0]
                for axis in range(3)
            ]
        )

    aft, across = np.array([1.0, 0.0, 0.0]), right - left
    length = np.linalg.norm(across)
    return part(left, across / length, length) + part(right, aft, 1e5) - part(left, aft, 1e5)


@pytest.mark.parametrize("point", [(0.9, 0.3, 0.2), (-0.7, -1.1, 0.4), (3.0, 0.8, -0.6)])
def test_a_horseshoe_is_biot_and_savart_integrated(point):
    grid = panels([strips(SWEPT, 12)], 1)
    point = np.array(point)
    v, w = induced_velocity(point[None, :], grid)
    for number in (2, 8):
        exact = path_velocity(grid.left_m[number], grid.right_m[number], point)
        assert (v[0, number], w[0, number]) == pytest.approx((exact[1], exact[2]), rel=1e-7, abs=1e-9)


def test_at_the_end_of_a_vortex_the_flow_is_finite():
    grid = lattice([SWEPT])
    v, w = induced_velocity(grid.right_m, grid)
    assert np.isfinite(v).all()
    assert np.isfinite(w).all()
