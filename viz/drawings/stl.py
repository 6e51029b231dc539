"""The cam as STL for a printer: the outline and the bore, raised to the cam's thickness."""

from __future__ import annotations

from math import atan2, cos, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.drawings.drawing import Drawing


def stl(drawing: Drawing, thickness_mm: float) -> bytes:
    """Return a part with a bore at its origin as binary STL, in millimetres; its other holes are drilled.

    The outline must be seen whole from the bore's centre, as a cam's is: each of its corners is joined to the bore
    along a ray.
    """
    from ezdxf.addons.meshex import stl_dumpb
    from ezdxf.render.mesh import MeshBuilder

    bore_mm = drawing.circles[0][1] / 2.0
    rim = [(bore_mm * cos(atan2(y, x)), bore_mm * sin(atan2(y, x))) for x, y in drawing.outline]
    count = len(rim)
    mesh = MeshBuilder()
    for ring in (drawing.outline, rim):
        for height in (0.0, thickness_mm):
            mesh.vertices.extend((x, y, height) for x, y in ring)
    low, high, inner_low, inner_high = (count * row for row in range(4))
    for here in range(count):
        there = (here + 1) % count
        for a, b in ((low, high), (high, inner_high), (inner_high, inner_low), (inner_low, low)):
            mesh.faces.append((a + here, a + there, b + there, b + here))
    made: bytes = stl_dumpb(mesh)
    return made
