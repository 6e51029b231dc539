"""A figure inside a page keeps its ids to itself and says what it shows."""

from viz.sheets.svg import inlined

FILE = """<?xml version="1.0"?>
<!DOCTYPE svg>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"
 width="684pt" height="540pt" viewBox="0 0 684 540" version="1.1">
 <metadata>made by</metadata>
 <defs><style type="text/css">*{stroke-linejoin: round}</style><path id="m1"/></defs>
 <use xlink:href="#m1" x="1"/><g clip-path="url(#p1)"/><clipPath id="p1"/><text>a &amp; id="b"</text>
</svg>
"""


def test_an_element_of_a_page():
    svg = inlined(FILE, "figure3", 'up "left" & <down>')
    assert svg.startswith("<svg ")
    assert svg.endswith("</svg>")
    assert "metadata" not in svg
    assert "<style" not in svg
    assert 'aria-label="up &quot;left&quot; &amp; &lt;down&gt;"' in svg
    assert 'style="min-width: 684px;' in svg
    assert "height=" not in svg
    assert '<path id="figure3-m1"/>' in svg
    assert '<use href="#figure3-m1" x="1"/>' in svg
    assert 'clip-path="url(#figure3-p1)"/><clipPath id="figure3-p1"/>' in svg
