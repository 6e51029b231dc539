"""The SVG is true to scale: as XML, and as a browser lays it out at 96 dots to the inch."""

import json
import re
import subprocess
from xml.etree import ElementTree

import numpy as np
import pytest
from browsers import CHROMIUM

from viz.drawings.svg import part_svg

NAMES = {"svg": "http://www.w3.org/2000/svg"}
MEASURE = """<!doctype html><html><body style="margin:0">{parts}<pre id="answer"></pre><script>
const box = path => {{ const b = path.getBBox(), m = path.getScreenCTM(); return [b.width * m.a, b.height * m.d]; }};
const measured = part => ({{outline: box(part.querySelector('#outline path')),
  holes: [...part.querySelectorAll('#holes circle')].map(c => c.getBoundingClientRect().width)}});
document.getElementById('answer').textContent = JSON.stringify([...document.querySelectorAll('div')].map(measured));
</script></body></html>"""


def test_one_user_unit_is_one_millimetre(drawings):
    for name, drawing in drawings.items():
        root = ElementTree.fromstring(part_svg(drawing, name))
        wide, high = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
        assert root.get("viewBox") == f"0 0 {wide:.4f} {high:.4f}"


def test_the_outline_is_that_of_the_drawing(drawings):
    for name, drawing in drawings.items():
        root = ElementTree.fromstring(part_svg(drawing, name))
        path = root.find("svg:g[@id='outline']/svg:path", NAMES).get("d")
        assert path.endswith("Z")
        corners = np.array(re.findall(r"([\d.]+) ([\d.]+)", path), dtype=float)
        there = np.array(drawing.outline)
        assert np.ptp(corners, axis=0) == pytest.approx(np.ptp(there, axis=0), abs=2e-4)
        up = corners * [1.0, -1.0]
        assert up - up[0] == pytest.approx(there - there[0], abs=2e-4)


def test_all_words_lie_on_the_page(drawings):
    for name, drawing in drawings.items():
        root = ElementTree.fromstring(part_svg(drawing, f"{name}, 6 mm plate, inert display, millimetres"))
        wide = float(root.get("width").removesuffix("mm"))
        for text in root.iterfind("svg:g[@id='text']/svg:text", NAMES):
            length = 0.602 * float(text.get("font-size")) * len(text.text)
            start = float(text.get("x")) - (length / 2.0 if text.get("text-anchor") == "middle" else 0.0)
            assert start > 0.0
            assert start + length < wide


@pytest.mark.slow
@pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine to lay the SVG out")
def test_a_browser_at_96_dots_to_the_inch_measures_true(drawings, tmp_path):
    """All parts of a display on one page, each in a division of its own: a browser takes seconds to start."""
    parts = (f"<div>{part_svg(drawing, name).partition('?>')[2]}</div>" for name, drawing in drawings.items())
    page = tmp_path / "parts.html"
    page.write_text(MEASURE.format(parts="".join(parts)), encoding="utf-8")
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", page.as_uri()]
    shown = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout
    answers = json.loads(re.search(r'<pre id="answer">(.*?)</pre>', shown)[1])
    dots = 96.0 / 25.4
    for measured, drawing in zip(answers, drawings.values(), strict=True):
        left, bottom, right, top = drawing.box
        assert measured["outline"] == pytest.approx([(right - left) * dots, (top - bottom) * dots], abs=0.01)
        wide = [diameter * dots for _, diameter in drawing.circles]
        assert measured["holes"] == pytest.approx(wide, abs=0.6)  # a stroke of 0.1 mm is counted in
