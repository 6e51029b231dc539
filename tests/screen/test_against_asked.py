"""What a table of differences tells first, in which words, and what it leaves out."""

from airplanes import BIPLANE, TRIPLANE


def test_what_a_balance_is_asked_for_comes_first_and_names_both_engines(run):
    text = run("balance", BIPLANE, "--against", TRIPLANE).stdout
    told = text[text.index("Against ") :]
    places = [told.index(word) for word in ("\n  mass ", "\n  centre of ", "\n  engine move ", "\n  empty mass ")]
    assert places == sorted(places)
    assert told.index("\n  mass ") < told.index("standard")
    assert "Engine geared_six of the other is compared with flat_four of this." in " ".join(told.split())
    assert "positions" not in told
    assert "remarks." not in told


def test_what_no_sheet_shows_is_counted_not_told(run):
    text = run("balance", BIPLANE, "--against-set", "item.battery.station=60 in").stdout
    told = text[text.index("Against ") :]
    assert "standard error of a mass" not in " ".join(told.split())
    assert max(len(line) for line in told.splitlines() if "item." not in line) <= 80


def test_components_have_words(run):
    told = " ".join(run("mount", BIPLANE, "--against-set", "mount.load_factor=4.6").stdout.split())
    assert "full load factor, down" in told
    assert "full load factor, 3" not in told


def test_no_number_of_a_table_is_written_with_many_zeros(run):
    text = run(
        "balance", BIPLANE, "--against-set", "balance.aft_limit=20 %", "--against-set", "balance.target=19 %"
    ).stdout
    assert "0.0000000000" not in text


def test_the_same_airplane_has_no_difference(run):
    told = run("layout", BIPLANE, "--against", BIPLANE).stdout
    assert f"Against {BIPLANE}: no difference." in " ".join(told.split())


def test_files_are_written_of_the_first_alone(run, tmp_path):
    once, both = tmp_path / "once.csv", tmp_path / "both.csv"
    run("maneuver", "pull", BIPLANE, "--csv", once)
    assert run("maneuver", "pull", BIPLANE, "--csv", both, "--against", TRIPLANE).exit_code == 0
    assert once.read_text() == both.read_text()
