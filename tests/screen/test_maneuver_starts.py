"""Steady flights from which a manoeuvre cannot begin, or begins beyond the range of validity: what is told."""

from airplanes import BIPLANE


def test_a_spin_entry_too_steep_to_begin_names_a_bank_that_works(run):
    steep = run("maneuver", "spin-entry", BIPLANE, "--bank", "80 deg")
    assert steep.exit_code == 1
    assert steep.stderr.endswith(" too little at 1657 rpm; bank 60° or less\n")
    assert run("maneuver", "spin-entry", BIPLANE, "--bank", "60 deg").exit_code == 0


def test_a_flight_that_begins_stalled_says_so(run):
    slow, faster = (run("maneuver", "pull", "hayrick", "--speed", speed).stdout for speed in ("50 mph", "60 mph"))
    told = "beyond the range of validity in the steady flight before the first control movement already"
    assert f"upright_four up, upright_four down: {told}" in " ".join(slow.split())
    assert told not in " ".join(faster.split())
