"""The whole display in three dimensions as DXF: a mesh a part on the layer of its item, in millimetres."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from shapely import Polygon

from sim.units.convert import mm
from viz.drawings.dxf import INERT
from viz.drawings.items import key, numbers
from viz.drawings.solid_stl import triangles_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Fastener, Part

COARSE_MM = 0.02
"""By which a corner of a rim may be left out, where no other prism of the part shares it: nothing is cut by it. [mm]"""
COLOURS = {"steel": 8, "aluminium": 9, "brass": 40, "acetal": 7, "birch plywood": 33, "polycarbonate": 131}
"""Material -> colour number of the standard palette; 251 for others."""
OTHER = 251
WORDS_MM = 8.0
"""Height of the letters of the caution that stands below the display. [mm]"""


def assembly_dxf(assembly: Assembly) -> bytes:
    """Return everything in its place, x right and y up as a visitor sees it, z toward the visitor."""
    from ezdxf import units
    from ezdxf.filemanagement import new
    from ezdxf.math import Vec3
    from ezdxf.render.mesh import MeshTransformer

    made, found = new("R2010"), numbers(assembly)
    made.units = units.MM
    space = made.modelspace()
    for each in assembly.pieces:
        layer = f"{found[key(each)]:02d} {each.name.upper()}"
        if layer not in made.layers:
            made.layers.add(layer, color=COLOURS.get(material_of(each), OTHER)).description = INERT
        mesh = MeshTransformer()
        for facet in triangles_of(layers_of(each)):
            start = len(mesh.vertices)
            mesh.vertices.extend(map(Vec3, facet))
            mesh.faces.append((start, start + 1, start + 2))
        mesh.rotate_z(getattr(each, "placed_rad", 0.0)).translate(mm(each.x_m), mm(each.y_m), 0.0)
        whole = mesh.optimize_vertices()
        whole.render_mesh(space, dxfattribs={"layer": layer})
    made.layers.add("TEXT", color=3).description = INERT
    space.add_text(INERT, height=WORDS_MM, dxfattribs={"layer": "TEXT"}).set_placement(
        (0.0, mm(assembly.foot_m) - 30.0)
    )
    stream = io.StringIO()
    made.write(stream)
    return stream.getvalue().encode()


def material_of(each: Part | Fastener) -> str:
    """Return the material of a part; that of screws is steel."""
    return getattr(each, "material", "steel")


def layers_of(each: Part | Fastener) -> list[tuple[BaseGeometry, float, float]]:
    """Return the prisms of a part about its own origin, shape, lower and upper end. [mm]."""
    shapes: list[BaseGeometry] = [
        Polygon(mm(slab.outline_m), [mm(rim) for rim in slab.openings_m]) for slab in each.slabs
    ]
    if len(shapes) == 1:
        shapes = [shapes[0].simplify(COARSE_MM)]
    return [(shape, mm(slab.z_from_m), mm(slab.z_to_m)) for shape, slab in zip(shapes, each.slabs, strict=True)]
