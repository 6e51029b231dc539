"""In a browser: not a word on its console, not a request, no serious fault of access, two pages where two are said.

Needs Chromium, and Node with axe-core for the audit (``npm install axe-core``, found through ``NODE_PATH``).
"""

import json
import re
import subprocess
from html import unescape
from unicodedata import normalize

import pytest
from browsers import CHROMIUM, QUIET
from letters_on_paper import letters
from pypdf import PdfReader

from viz.report.handout import Handout

FLAGS = (*QUIET, "--disable-quic", "--enable-logging=stderr")
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
SAID = '<pre id="said">'
ASK = """<script>
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
axe.run(document, {runOnly: rules}).then(found => {
  const said = document.createElement("pre");
  said.id = "said";
  said.textContent = JSON.stringify({
    faults: found.violations.map(one => [one.impact, one.id, one.nodes.slice(0, 3).map(node => node.html)]),
    passed: found.passes.map(one => one.id),
    fetched: performance.getEntriesByType("resource").map(one => one.name).filter(one => !one.startsWith("data:")),
    beyond: [...document.querySelectorAll("main *")].filter(one => {
      const box = one.getBoundingClientRect();
      return box.width && !one.closest("thead") && (box.right > window.innerWidth + 1 || box.left < -1);
    }).slice(0, 5).map(one => one.outerHTML.slice(0, 80)),
    wider: document.documentElement.scrollWidth - window.innerWidth,
  });
  document.body.append(said);
});
</script>"""

pytestmark = [
    pytest.mark.skipif(CHROMIUM is None, reason="needs Chromium"),
    pytest.mark.slow,
]


@pytest.fixture
def browse(tmp_path):
    """Open a file in a browser of its own; the result holds the page on stdout and the console on stderr."""

    def opened(path, *flags):
        words = [CHROMIUM, *FLAGS, f"--user-data-dir={tmp_path / 'profile'}", *flags, path.as_uri()]
        return subprocess.run(words, capture_output=True, text=True, check=True, timeout=120)

    return opened


@pytest.fixture
def audit(browse, axe, tmp_path):
    """Return what axe-core and the browser say about a page, its policy lifted so that a script may ask."""

    def audited(text, width):
        asked = tmp_path / "asked.html"
        script = f"<script>{axe}</script>{ASK}"
        asked.write_text(POLICY.sub("", text).replace("</body>", f"{script}</body>"), encoding="utf-8")
        dom = browse(asked, f"--window-size={width},900", "--virtual-time-budget=60000", "--dump-dom").stdout
        assert SAID in dom
        return json.loads(unescape(dom.split(SAID)[1].split("</pre>")[0]))

    return audited


def console(done) -> list[str]:
    return [line for line in done.stderr.splitlines() if "CONSOLE" in line]


@pytest.mark.parametrize("name", ["report.html", "handout.html"])
def test_the_console_stays_silent(browse, files, name):
    assert console(browse(files / name, "--dump-dom")) == []


def test_a_fault_would_be_heard(browse, files, tmp_path):
    """A page that asks for a picture is told off by its own policy."""
    text = (files / "handout.html").read_text(encoding="utf-8")
    (tmp_path / "bad.html").write_text(text.replace("</main>", '<img src="http://127.0.0.1:9/x.png" alt="x"></main>'))
    assert "Content Security Policy" in "".join(console(browse(tmp_path / "bad.html", "--dump-dom")))


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", ["report.html", "handout.html"])
def test_anyone_can_read_it(audit, files, name, width):
    said = audit((files / name).read_text(encoding="utf-8"), width)
    assert said["faults"] == []
    assert {"html-has-lang", "document-title", "svg-img-alt", "color-contrast"} <= set(said["passed"])
    assert said["fetched"] == []
    assert said["wider"] <= 0
    assert width > 640 or said["beyond"] == []  # where tables do not fold, a wide one scrolls in its box


def test_a_fault_of_access_or_a_request_would_be_found(audit, files):
    bad = '<p style="color: #aaa">pale</p><img src="http://127.0.0.1:9/x.png">'
    said = audit((files / "handout.html").read_text(encoding="utf-8").replace("</main>", f"{bad}</main>"), 1280)
    assert {fault[1] for fault in said["faults"]} == {"color-contrast", "image-alt"}
    assert said["fetched"] == ["http://127.0.0.1:9/x.png"]


@pytest.mark.parametrize("size", ["letter", "A4"])
@pytest.mark.parametrize("language", ["", "french", "german"])
def test_the_handout_is_two_pages_without_a_small_letter(browse, reported, tmp_path, size, language):
    files, found = reported
    text = (files / "handout.html").read_text(encoding="utf-8")
    if language:
        text = Handout(found, language, "si").page("https://museum.example/page.html")
    (tmp_path / "sized.html").write_text(
        text.replace("</style>", f"@page {{ size: {size}; }}</style>"), encoding="utf-8"
    )
    browse(tmp_path / "sized.html", "--no-pdf-header-footer", f"--print-to-pdf={tmp_path / 'out.pdf'}")
    first, second = PdfReader(tmp_path / "out.pdf").pages
    words = [normalize("NFKC", " ".join(leaf.extract_text().split())) for leaf in (first, second)]
    assert letters(tmp_path / "out.pdf") == ({}, 0)
    if not language:
        assert "Why did a spinning engine turn the nose?" in words[0]
        assert "How could a gun fire between turning blades?" in words[1]
    assert float(first.mediabox.width) == pytest.approx({"letter": 612.0, "A4": 595.3}[size], abs=1.0)
