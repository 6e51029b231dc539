"""The STL is one closed body as thick as the cam, with the bore left out."""

import math
from collections import Counter

import numpy as np
import pytest

from viz.drawings.stl import stl

FACET = np.dtype([("normal", "<3f4"), ("corners", "<9f4"), ("spare", "<u2")])


@pytest.fixture
def facets(made, drawings):
    data = stl(drawings["cam"], made.parts[0].thickness_m * 1e3)
    count = int(np.frombuffer(data, "<u4", 1, 80)[0])
    return np.frombuffer(data, FACET, count, 84)["corners"].reshape(-1, 3, 3).astype(float)


def test_every_edge_belongs_to_two_facets_that_run_it_both_ways(facets):
    edges = Counter()
    for corners in facets.round(4).tolist():
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
            edges[(tuple(start), tuple(end))] += 1
    assert set(edges.values()) == {1}
    assert all((end, start) in edges for start, end in edges)


def test_its_volume_is_outline_less_bore_times_thickness(made, drawings, facets):
    x, y = np.array(drawings["cam"].outline).T
    flat = np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2.0
    bore = drawings["cam"].circles[0][1]
    thick = made.parts[0].thickness_m * 1e3
    volume = np.sum(np.einsum("fi,fi->f", facets[:, 0], np.cross(facets[:, 1], facets[:, 2]))) / 6.0
    assert volume == pytest.approx((flat - math.pi * bore**2 / 4.0) * thick, rel=1e-3)
