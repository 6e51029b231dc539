"""``whirlgate page``: what it writes, and what it says of wrong options."""

import re

import pytest
import segno

ADDRESS = "https://museum.example/engine.html"


def test_it_writes_a_page_and_the_code_that_leads_to_it(run, tmp_path):
    shown = run("page", "--out", tmp_path / "page.html", "--qr", ADDRESS)
    assert (shown.exit_code, shown.stdout) == (0, "")
    assert shown.stderr.splitlines() == [f"wrote {tmp_path / name}" for name in ("page.html", "page-code.svg")]
    text = (tmp_path / "page.html").read_text(encoding="utf-8")
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)[1]
    assert policy.startswith("default-src 'none'; script-src 'sha256-")
    assert "unsafe" not in policy


def test_the_squares_are_those_of_the_address(run, tmp_path):
    run("page", "--out", tmp_path / "page.html", "--qr", ADDRESS)
    text = (tmp_path / "page-code.svg").read_text(encoding="utf-8")
    wanted = segno.make_qr(ADDRESS, error="q")
    side = len(wanted.matrix)
    assert f'width="{side + 8}.0mm"' in text
    assert f"<title>{ADDRESS}</title>" in text
    path = re.findall(r'class="qrline" stroke="#000" d="([^"]*)"', text)[0]
    drawn, x, y = [[0] * side for _ in range(side)], 0.0, 0.0
    for letter, *numbers in re.findall(r"([Mmh])(-?[\d.]+)(?: ?(-?[\d.]+))?", path):
        one, other = float(numbers[0]), float(numbers[1] or 0.0)
        if letter == "h":
            for step in range(int(one)):
                drawn[int(y) - 4][int(x) - 4 + step] = 1
            x += one
        else:
            x, y = (one, other) if letter == "M" else (x + one, y + other)
    assert drawn == [list(row) for row in wanted.matrix]


def test_without_a_gun_there_are_two_scenes(run, tmp_path):
    shown = run("page", "hayrick", "--out", tmp_path / "page.html")
    assert shown.exit_code == 0
    text = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert '<button id="to-engine"' in text
    assert "to-blades" not in text.partition("<script>")[0]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "--out: is missing; say where to write: --out page.html"),
        (("--out", "page.pdf"), "--out: must end in .html or .htm, got"),
        (
            ("--out", "page.html", "--qr", "museum.example"),
            '--qr: must be the address where the page will be, https://…, got "museum.example"',
        ),
        (
            ("--out", "page.html", "--qr", "https://museum.example/" + 300 * "a"),
            "--qr: must have at most 300 letters, got 323; a shorter address is read from farther",
        ),
    ],
)
def test_wrong_options_are_refused_with_the_cure(run, tmp_path, monkeypatch, words, said):
    monkeypatch.chdir(tmp_path)
    shown = run("page", *words)
    assert shown.exit_code == 2
    assert said in " ".join(shown.stderr.split())
    assert list(tmp_path.iterdir()) == []


def test_another_page_is_not_written_over(run, tmp_path):
    (tmp_path / "page.html").write_text("mine")
    shown = run("page", "--out", tmp_path / "page.html")
    assert shown.exit_code == 2
    assert "--force" in shown.stderr
    assert (tmp_path / "page.html").read_text() == "mine"
