"""``whirlgate report``: what it asks for, what it refuses, and files written whole or not at all."""

from sim.scenario.bundled import names


def test_without_a_file_it_says_what_to_give(run):
    shown = run("report")
    assert shown.exit_code == 2
    assert shown.stderr == (
        "--out: is missing; say where to write: --out FILE.html, --pdf FILE.pdf or --handout FILE.html\n"
    )


def test_all_wrong_options_at_once(run):
    shown = run("report", "--paper", "leter")
    assert shown.exit_code == 2
    assert shown.stderr.splitlines() == [
        '--paper: must be letter or a4, got "leter"; did you mean letter?',
        "--out: is missing; say where to write: --out FILE.html, --pdf FILE.pdf or --handout FILE.html",
    ]


def test_a_file_that_is_there_is_kept(run, tmp_path):
    there = tmp_path / "report.html"
    there.write_text("mine")
    shown = run("report", "--out", there)
    assert shown.exit_code == 2
    assert shown.stderr == f"{there}: is already there; give --force to replace it\n"
    assert there.read_text() == "mine"


def test_a_folder_that_is_not_there_is_told_before_the_work(run, tmp_path):
    shown = run("report", "--out", tmp_path / "nowhere" / "report.html")
    assert shown.exit_code == 2
    assert shown.stderr == f'--out: needs the folder "{tmp_path / "nowhere"}", which is not there; make it first\n'


def test_one_file_for_two_pages(run, tmp_path):
    both = tmp_path / "both.html"
    shown = run("report", "--out", both, "--handout", both)
    assert shown.exit_code == 2
    assert shown.stderr == f'--handout: must be another file than --out, got "{both}"\n'


def test_a_wrong_ending(run, tmp_path):
    shown = run("report", "--pdf", tmp_path / "report.txt")
    assert shown.exit_code == 2
    assert shown.stderr == f'--pdf: must end in .pdf, got "{tmp_path / "report.txt"}"\n'


def test_a_wrong_scenario(run, tmp_path):
    shown = run("report", "tolgate", "--out", tmp_path / "report.html")
    assert shown.exit_code == 2
    assert (
        shown.stderr
        == f"tolgate: is neither a file nor a bundled scenario ({', '.join(names())}); did you mean tollgate?\n"
    )


def test_it_says_where_it_wrote_and_nothing_on_stdout(run, tmp_path):
    handout = tmp_path / "handout.html"
    shown = run("report", "--handout", handout)
    assert (shown.exit_code, shown.stdout, shown.stderr) == (0, "", f"wrote {handout}\n")


def test_paper_without_a_pdf_is_refused(run, tmp_path):
    shown = run("report", "--out", tmp_path / "report.html", "--paper", "a4")
    assert shown.exit_code == 2
    assert shown.stderr == "--paper: is that of the PDF; give --pdf FILE.pdf as well, or leave it out\n"
