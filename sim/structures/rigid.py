"""Small motion of a rigid body: how far each of its points moves as the body shifts and turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray


def rigid_motion(place_m: Sequence[float]) -> NDArray[np.float64]:
    """Return the 3 x 6 matrix from shift of the origin and turn about it to the motion of a point.

    Parameters
    ----------
    place_m : sequence of float
        Of the point, from the origin. [m]

    Notes
    -----
    Its transpose takes a force at the point to force and moment at the origin. Turns are small.

    Examples
    --------
    >>> rigid_motion((2.0, 0.0, 0.0)) @ [0.0, 0.0, 0.0, 0.0, 0.01, 0.0]
    array([ 0.  ,  0.  , -0.02])
    """
    x, y, z = place_m
    return np.hstack([np.eye(3), [[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]]])
