"""Options that many commands share are written once."""


def test_the_option_of_a_powerplant_is_written_in_one_file(all_sources):
    where = [s.name for s in all_sources if s.name.startswith("viz/commands/") and '"--powerplant",' in s.text]
    assert where == ["viz/commands/options.py"]
