"""Solids of the stage as a page takes them: corners once, in millimetres, faces by their numbers."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.solid.solid import Solid


def packed(solid: Solid) -> dict[str, Any]:
    """Return a solid as JSON takes it, its numbers as 16-bit integers in base64.

    ``kinds`` are role, finish, nearer [m] and ahead of which x [m] it is seen, None for always; ``kind`` is one of them
    for each face. Rods have a role and a width [m] each, and six numbers.
    """
    corners = np.round(1000.0 * solid.corners).astype(np.int16)
    turning = np.zeros(len(corners), dtype=np.int16)
    for number, hinge in enumerate(solid.hinges.values(), start=1):
        turning[hinge.corners] = number
    places, which = np.unique(np.column_stack([corners, turning]), axis=0, return_inverse=True)
    named = list(zip(solid.role.tolist(), solid.finish.tolist(), solid.nearer, solid.ahead_of, strict=True))
    kinds = sorted(set(named))
    return {
        "corners": _base64(places[:, :3].astype(np.int16)),
        "faces": _base64(which.reshape(-1).astype(np.uint16)),
        "kinds": [
            [solid.roles[role], finish, near, ahead if np.isfinite(ahead) else None]
            for role, finish, near, ahead in kinds
        ],
        "kind": _base64(np.array([kinds.index(kind) for kind in named], dtype=np.uint8)),
        "rods": _base64(np.round(1000.0 * solid.rods).astype(np.int16)),
        "rod": [
            [solid.roles[role], width] for role, width in zip(solid.rod_role.tolist(), solid.rod_width, strict=True)
        ],
        "hinges": {
            name: {
                "origin": hinge.origin.tolist(),
                "axis": hinge.axis.tolist(),
                "corners": _base64(np.flatnonzero(places[:, 3] == number).astype(np.uint16)),
            }
            for number, (name, hinge) in enumerate(solid.hinges.items(), start=1)
        },
    }


def _base64(numbers: NDArray[Any]) -> str:
    return base64.b64encode(np.ascontiguousarray(numbers).astype(numbers.dtype.newbyteorder("<")).tobytes()).decode()
