"""Solids of the stage as a page takes them: corners once, in millimetres, faces by their numbers."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.units.convert import mm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from viz.stage.solid.solid import Solid


def packed(solid: Solid) -> dict[str, Any]:
    """Return a solid as JSON takes it, its numbers as 16-bit integers in base64.

    ``kinds`` are role, finish, nearer [m] and ahead of which x [m] it is seen, None for always; ``kind`` is one of them
    for each face. Rods have a role and a width [m] each, and six numbers.
    """
    named = list(zip(solid.role.tolist(), solid.finish.tolist(), solid.nearer, solid.ahead_of, strict=True))
    kinds = sorted(set(named))
    return {
        "corners": _base64(_mm(solid.posed({}).places)),
        "faces": _base64(solid.place.astype(np.uint16)),
        "kinds": [
            [solid.roles[role], finish, near, ahead if np.isfinite(ahead) else None]
            for role, finish, near, ahead in kinds
        ],
        "kind": _base64(np.array([kinds.index(kind) for kind in named], dtype=np.uint8)),
        "rods": _base64(_mm(solid.rods)),
        "rod": [
            [solid.roles[role], width] for role, width in zip(solid.rod_role.tolist(), solid.rod_width, strict=True)
        ],
        "hinges": dict(_hinges(solid)),
    }


def _hinges(solid: Solid) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield each hinge by its name: a place on its axis [m], the axis, and the corners that turn."""
    turning, count = solid.turning, len(solid.points) - 2 * len(solid.role)
    for number, name in enumerate(turning.names):
        here = np.flatnonzero((turning.which == number) & (turning.rows < count))
        if len(here):
            widest = here[np.argmax(np.linalg.norm(turning.aside[here], axis=1))]
            yield (
                name,
                {
                    "origin": turning.middle[widest].tolist(),
                    "axis": np.cross(turning.aside[widest], turning.across[widest]).tolist(),
                    "corners": _base64(turning.rows[here].astype(np.uint16)),
                },
            )


def _mm(places_m: NDArray[np.float64]) -> NDArray[np.int16]:
    return np.round(mm(places_m)).astype(np.int16)


def _base64(numbers: NDArray[Any]) -> str:
    return base64.b64encode(np.ascontiguousarray(numbers).astype(numbers.dtype.newbyteorder("<")).tobytes()).decode()
