"""Assembly and solution of a lattice of 336 panels against numpy's solution of that size and one kernel evaluation."""

import numpy as np
from side_by_side import say, seconds

from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_panels import LiftingPlane

BIPLANE = (LiftingPlane(7.8, 1.3, dihedral_rad=0.05), LiftingPlane(8.5, 1.4, height_m=1.4, stagger_m=0.5))
SIZE = 336


def main() -> None:
    """Print the ratio."""
    grid = lattice(BIPLANE)
    if len(grid.plane) != SIZE:
        message = f"the lattice has {len(grid.plane)} panels"
        raise SystemExit(message)
    matrix = np.random.default_rng(1).normal(size=(SIZE, SIZE))
    right = np.ones((SIZE, 4))

    def yardstick() -> None:
        np.linalg.solve(matrix, right)
        induced_velocity(grid.control_m, grid)

    least, taken = seconds(yardstick, lambda: circulation(lattice(BIPLANE)), rounds=25)
    say("lattice, 336 panels: assembly and solution / numpy.linalg.solve and one kernel evaluation", taken / least, 3.0)


if __name__ == "__main__":
    main()
