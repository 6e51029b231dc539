"""K. Gramoll, Statics (eCourses), section 6.3, case study: the truss between two stages of a rocket.

Eight joints on a lower ring of 1 m radius, eight on an upper ring of 0.75 m turned by 22.5°, 1 m apart; two tubes from
each lower joint; thrust 2400 kN along the axis: every tube −162.7 kN. Mark P: read in the source and recomputed. The
same shape as an engine mount, with the engine behind instead of ahead.
"""

import math

from sim.structures.truss import Node, Tube, solve_truss


def ring(name, held, *, radius_m, ahead_m, from_deg):
    angles = [math.radians(from_deg + 45.0 * number) for number in range(8)]
    return [
        Node(f"{name} {number}", (ahead_m, radius_m * math.cos(angle), radius_m * math.sin(angle)), held)
        for number, angle in enumerate(angles)
    ]


def test_every_tube_carries_162_7_kn(printed):
    nodes = [
        *ring("lower", "engine", radius_m=1.0, ahead_m=0.0, from_deg=0.0),
        *ring("upper", "airframe", radius_m=0.75, ahead_m=1.0, from_deg=22.5),
    ]
    tubes = [
        Tube(f"{lower} {side}", f"lower {lower}", f"upper {(lower - side) % 8}", 0.1, 0.005)
        for lower in range(8)
        for side in (0, 1)
    ]
    solved = solve_truss(nodes, tubes, force_n=(2.4e6, 0.0, 0.0), moment_n_m=(0.0, 0.0, 0.0))
    for number, member in enumerate(solved.members, 1):
        printed(member.axial_n / 1e3, "-162.7", "kN", row=f"axial load of tube {number}")
    assert solved.redundancy == 10
