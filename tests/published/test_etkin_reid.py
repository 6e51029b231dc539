"""B. Etkin & L. D. Reid, Dynamics of Flight, section 4.6: spinning rotors.

To the inertia side of the moment equations are added q h'z − r h'y, r h'x − p h'z, p h'y − q h'x; a couple on the
airframe is minus these. Mark P: read in a reproduction of the source.
"""

import pytest

from sim.rotor.couple import couple


@pytest.mark.parametrize(("q", "r"), [(0.3, 0.0), (0.0, -0.7), (0.4, 0.9)])
@pytest.mark.parametrize("hx", [-150.0, 250.0])
def test_rotor_terms_for_a_shaft_along_x(q, r, hx, printed):
    answer = couple(hx, pitch_rate_rad_s=q, yaw_rate_rad_s=r)
    given = f"q {q:g}, r {r:g} rad/s, hx {hx:g} kg m²/s"
    printed(answer.pitch_n_m, f"{-(r * hx) + 0.0:.1f}", "N m", row=f"−(r hx − p hz) at {given}", exact=True)
    printed(answer.yaw_n_m, f"{q * hx + 0.0:.1f}", "N m", row=f"−(p hy − q hx) at {given}", exact=True)
