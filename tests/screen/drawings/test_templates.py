"""Templates read back from the book by another library: true to size, whole, and on either paper."""

import re

import pytest
from paper import extent

from viz.drawings.flat_parts import cut_parts
from viz.drawings.papers import PAPERS
from viz.drawings.templates import ROOM_MM, straight
from viz.drawings.tiles import OVERLAP_MM, REGISTER_MM

TRUE_MM = 0.05


@pytest.fixture(scope="session")
def pages(made):
    start = next(number for number, page in enumerate(made.pages) if page.text.startswith("Templates at full size"))
    return made.pages[start:]


def frame_of(page):
    """Return left and top of the frame of what is drawn at full size. [mm]"""
    wide, high = ROOM_MM
    (path,) = (each for each in page.paths if extent(each) == pytest.approx((wide, high), abs=TRUE_MM))
    return min(x for x, _ in path), min(y for _, y in path)


def tiles_of(pages, name):
    """Return row, column and paths, from the frame, of every page of a part."""
    found = []
    for page in pages:
        said = re.match(rf"{name.capitalize()}, template: row (\d+) of \d+ from the top, column (\d+) of", page.text)
        if said:
            left, top = frame_of(page)
            paths = [[(x - left, y - top) for x, y in path] for path in page.paths]
            inside = [
                p for p in paths if all(-1.0 < x < ROOM_MM[0] + 1.0 and -1.0 < y < ROOM_MM[1] + 1.0 for x, y in p)
            ]
            found.append((int(said[1]) - 1, int(said[2]) - 1, [p for p in inside if extent(p)[0] < ROOM_MM[0] - 0.1]))
    return found


def small(exhibit, pages):
    whole = [page for page in pages if page.text.startswith("Templates at full size")]
    return [
        one for one in cut_parts(exhibit) if any(f"{one.part.name}, {one.quantity} of" in page.text for page in whole)
    ]


def test_each_part_that_fits_a_page_stands_on_it_at_full_size(exhibit, pages):
    whole = [page for page in pages if page.text.startswith("Templates at full size")]
    shown = small(exhibit, pages)
    assert len(shown) >= 8
    for one in shown:
        left, low, right, high = one.drawing.box
        for wide, tall in ((right - left, high - low), *((wide, wide) for _, wide in one.drawing.circles)):
            assert any(
                abs(across - wide) < TRUE_MM and abs(up - tall) < TRUE_MM
                for page in whole
                for across, up in map(extent, page.paths)
            ), one.file


def test_every_part_is_on_a_page_on_several_or_has_straight_edges(exhibit, pages):
    shown = {one.file for one in small(exhibit, pages)}
    for one in cut_parts(exhibit):
        assert one.file in shown or straight(one) or tiles_of(pages, one.part.name), one.file


def test_a_part_on_several_pages_joins_to_its_full_size(exhibit, pages):
    """Shifted by the step of the pages, the lines of all of them span the part, and crosses fall on each other."""
    step = ROOM_MM[0] - OVERLAP_MM, ROOM_MM[1] - OVERLAP_MM
    seen = 0
    for one in cut_parts(exhibit):
        tiles = tiles_of(pages, one.part.name)
        if not tiles:
            continue
        seen += 1
        left, low, right, high = one.drawing.box
        lines = [
            [(x + column * step[0], y + row * step[1]) for x, y in path]
            for row, column, paths in tiles
            for path in paths
        ]
        xs, ys = zip(*(spot for path in lines for spot in path), strict=True)
        assert max(xs) - min(xs) >= right - left - TRUE_MM
        assert max(xs) - min(xs) == pytest.approx(right - left, abs=16.0)
        assert max(ys) - min(ys) == pytest.approx(high - low, abs=24.0)
        rings = [
            (round(sum(x for x, _ in path) / len(path), 1), round(sum(y for _, y in path) / len(path), 1))
            for path in lines
            if extent(path) == pytest.approx((REGISTER_MM, REGISTER_MM), abs=0.02)
        ]
        alone = [ring for ring in rings if sum(abs(ring[0] - x) + abs(ring[1] - y) < 0.3 for x, y in rings) < 2]
        assert rings, one.file
        assert not alone, one.file
    assert seen >= 2


def test_a_page_has_room_on_either_paper():
    for paper in ("a4", "letter"):
        wide, high = PAPERS[paper]
        assert ROOM_MM[0] <= wide - 28.0
        assert ROOM_MM[1] + 14.0 <= high - 60.0
