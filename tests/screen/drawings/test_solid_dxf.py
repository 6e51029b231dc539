"""The display in three dimensions, read group code by group code: every part in its place, closed, of its volume."""

from collections import defaultdict
from itertools import pairwise

import numpy as np
import pytest
from displays import built

from sim.display.assembly.solid import volume
from viz.drawings.dxf import INERT
from viz.drawings.items import key, numbers
from viz.drawings.solid_dxf import assembly_dxf

SHARE = 0.012
"""By which a volume may differ: chords stand for arcs."""


def meshes(text):
    """Yield layer, corners [mm] and faces of each mesh of a DXF file."""
    lines = text.splitlines()
    pairs = [(int(code), value.strip()) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    starts = [at for at, (code, _) in enumerate(pairs) if code == 0] + [len(pairs)]
    for start, end in pairwise(starts):
        if pairs[start][1] == "MESH":
            yield _mesh(pairs[start:end])


def _mesh(pairs):
    layer = next(value for code, value in pairs if code == 8)
    values = iter(pairs)
    count = int(next(value for code, value in values if code == 92))
    corners = [[float(next(values)[1]) for _ in range(3)] for _ in range(count)]
    long = int(next(value for code, value in values if code == 93))
    listed = [int(next(values)[1]) for _ in range(long)]
    faces, at = [], 0
    while at < long:
        faces.append(listed[at + 1 : at + 1 + listed[at]])
        at += 1 + listed[at]
    return layer, np.array(corners), faces


def enclosed(corners, faces):
    """Return the volume that faces enclose, by the divergence theorem. [mm³]"""
    a, b, c = (corners[[face[side] for face in faces]] for side in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)


@pytest.fixture(scope="module")
def text():
    return assembly_dxf(built("default")).decode()


def test_every_part_stands_in_its_place_and_has_its_volume(text):
    assembly = built("default")
    found, of = defaultdict(list), numbers(assembly)
    for layer, corners, faces in meshes(text):
        found[layer].append((corners, faces))
    assert sum(map(len, found.values())) == len(assembly.pieces)
    for each in assembly.pieces:
        layer = f"{of[key(each)]:02d} {each.name.upper()}"
        ends = [1e3 * each.z_from_m, 1e3 * each.z_to_m]
        fitting = [
            enclosed(corners, faces)
            for corners, faces in found[layer]
            if np.allclose([corners[:, 2].min(), corners[:, 2].max()], ends, atol=1e-3)
        ]
        if getattr(each, "material", "steel") == "rubber" or each.name.endswith("screw"):
            continue
        assert any(one == pytest.approx(1e9 * volume(each.slabs), rel=SHARE) for one in fitting), each.name


def test_every_mesh_is_closed(text):
    """Each edge of a face is passed once each way."""
    for layer, corners, faces in meshes(text):
        edges = defaultdict(int)
        for face in faces:
            for a, b in zip(face, face[1:] + face[:1], strict=True):
                edges[a, b] += 1
        assert all(edges.get((b, a), 0) == count for (a, b), count in edges.items()), layer
        assert len(corners) > 7


def test_the_whole_is_as_large_as_the_display_and_bears_its_caution(text):
    assembly = built("default")
    corners = np.concatenate([corners for _, corners, _ in meshes(text)])
    deep = [
        1e3 * end(getattr(each, side) for each in assembly.pieces) for end, side in ((min, "z_from_m"), (max, "z_to_m"))
    ]
    assert [corners[:, 2].min(), corners[:, 2].max()] == pytest.approx(deep, abs=1e-3)
    assert corners[:, 1].min() == pytest.approx(1e3 * assembly.foot_m, abs=0.05)
    assert text.count(INERT) > len(numbers(assembly))
