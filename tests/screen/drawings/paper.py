"""A PDF read back in millimetres: its lines, circles and words, x from the left and y from the top."""

import io
import math
from dataclasses import dataclass

import pdfplumber

MM_PER_PT = 25.4 / 72.0


@dataclass(frozen=True)
class Word:
    """Letters on one line, the box they fill, and their size, infinite where they are turned.

    The box is left, top, right and bottom in millimetres, the size is in points.
    """

    text: str
    box: tuple[float, float, float, float]
    size_pt: float


@dataclass(frozen=True)
class Paper:
    """One page: its size [mm], every path as points [mm], every word, and all of its text."""

    size: tuple[float, float]
    paths: tuple[tuple[tuple[float, float], ...], ...]
    words: tuple[Word, ...]
    text: str


def read(made):
    """Return the pages of a PDF."""
    with pdfplumber.open(io.BytesIO(made)) as document:
        return [_page(page) for page in document.pages]


def _page(page):
    drawn = (*page.lines, *page.curves, *page.rects)
    paths = tuple(tuple((x * MM_PER_PT, y * MM_PER_PT) for x, y in path["pts"]) for path in drawn)
    size = page.width * MM_PER_PT, page.height * MM_PER_PT
    return Paper(size, paths, tuple(map(_word, _runs(page.chars))), " ".join(page.extract_text().split()))


def _runs(chars):
    """Yield runs of letters, each beginning where the one before it ends, upright or turned."""
    run = []
    for char in chars:
        if run and not _follows(run[-1], char):
            yield run
            run = []
        run.append(char)
    if run:
        yield run


def _follows(one, other):
    a, b, *_, x, y = one["matrix"]
    a2, b2, *_, x2, y2 = other["matrix"]
    scale = (a * a + b * b) ** 0.5
    along, across = ((x2 - x) * a + (y2 - y) * b) / scale, ((y2 - y) * a - (x2 - x) * b) / scale
    return abs(a2 - a) + abs(b2 - b) < 1e-6 and abs(across) < 0.5 and 0.0 < along < 1.3 * scale * one["adv"] + 1.0


def _word(run):
    left, top, right, bottom = zip(
        *((char["x0"], char["top"], char["x1"], char["bottom"]) for char in run), strict=True
    )
    box = tuple(edge * MM_PER_PT for edge in (min(left), min(top), max(right), max(bottom)))
    size = run[0]["size"] if run[0]["matrix"][1] == 0.0 else math.inf
    return Word("".join(char["text"] for char in run), box, size)


def extent(path):
    """Return width and height of a path. [mm]"""
    across, down = zip(*path, strict=True)
    return max(across) - min(across), max(down) - min(down)
