"""Wrong bills, options and scenarios: every fault at once, at file, row and column, and nothing is written."""

import pytest

from sim.scenario.reading import load


def refused(run, *words):
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    return result.stderr.splitlines()


def test_every_wrong_cell_at_once_and_the_file_stays(run, scenario, bill, edited):
    before = scenario.read_text(encoding="utf-8")
    edited(bill, name="pilot", mass="1e9", powerplant="rotery")
    edited(bill, name="cowl", station="far")
    edited(bill, name="bag", group="cockpit")
    place = {row.split(",")[0]: number for number, row in enumerate(bill.read_text("utf-8").splitlines(), start=1)}
    assert refused(run, "balance", scenario, "--bill-from", bill, "--write-items", scenario) == [
        f'{bill}:{place["cowl"]}: station [in]: must be a number without a unit, as in "45.5", got "far"',
        f'{bill}:{place["pilot"]}: mass [lb]: must be 0 to 220460 lb, got "1e9 lb"',
        f'{bill}:{place["bag"]}: station [in]: is missing: CG of the item aft of the datum, as in "45 in ± 1 in"',
    ]
    edited(bill, name="pilot", mass="190")
    edited(bill, name="cowl", station="2")
    edited(bill, name="bag", station="120")
    assert refused(run, "balance", scenario, "--bill-from", bill, "--write-items", scenario) == [
        f'{bill}:{place["pilot"]}: powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?'
    ]
    assert scenario.read_text(encoding="utf-8") == before


def test_a_wrong_column_is_told_once_and_not_for_each_new_item(run, scenario, bill):
    text = bill.read_text(encoding="utf-8").replace("station [in]", "stat'in]").replace("\npilot,", "\nbag,")
    bill.write_text(text, encoding="utf-8")
    keys = (
        "name, group, mass, station, waterline, buttline, length, width, height, moves_with_engine, move, added, "
        "powerplant"
    )
    assert refused(run, "balance", scenario, "--bill-from", bill) == [
        f"{bill}:1: stat'in]: must be one of {keys}, got \"stat'in]\"; did you mean station?",
        f'{bill}:1: station ± [in]: must stand beside a column "station [in]"',
    ]


def test_wrong_files_and_options(run, scenario, bill, tmp_path):
    assert refused(run, "balance", scenario, "--bill", bill) == [
        f"{bill}: is already there; give --force to replace it"
    ]
    assert refused(run, "balance", "--bill", "items.xlsx") == ['--bill: must end in .csv, got "items.xlsx"']
    assert refused(run, "balance", "--write-items", scenario) == ["--bill-from: is missing; --write-items needs it"]
    assert refused(run, "balance", "--remove-others") == ["--bill-from: is missing; --remove-others needs it"]
    other = tmp_path / "itms.csv"
    assert refused(run, "balance", scenario, "--bill-from", other) == [
        f"{other}: cannot be read: no such file; did you mean items.csv?"
    ]
    nowhere = tmp_path / "nowhere.toml"
    assert refused(run, "balance", scenario, "--bill-from", bill, "--write-items", nowhere) == [
        f'--write-items: must be a scenario that is there (whirlgate new writes one), got "{nowhere}"'
    ]


@pytest.mark.parametrize(
    ("items", "said"),
    [
        ('[[item]]\nfile = "items.csv"\n', 'that holds its items itself: change "items.csv", where they are'),
        (
            'item = [{ name = "a", group = "b", station = "1 m", mass = "1 kg" }]\n',
            "with each item under a line [[item]] of its own",
        ),
        (
            '[[item]]\nname = "a"\nmass = """1 \\\n  kg"""\nstation = "1 m"\ngroup = "b"\n',
            "with each value of an item on one line, not so item.1.mass",
        ),
    ],
)
def test_items_that_cannot_be_set(run, scenario, bill, items, said):
    text = scenario.read_text(encoding="utf-8")
    rest = text[: text.index("[[item]]")] + text[text.index("[[past]]") :]
    at = rest.index("title") if items.startswith("item") else rest.index("[[past]]")
    scenario.write_text(rest[:at] + items + rest[at:], encoding="utf-8")
    load(scenario)
    assert refused(run, "balance", scenario, "--bill-from", bill, "--write-items", scenario) == [
        f"--bill-from: must be given a scenario {said}"
    ]


def test_a_column_of_errors_is_told_by_its_head(run, scenario, bill):
    text = bill.read_text(encoding="utf-8").replace("mass ± [lb]", "± mass [lb]")
    bill.write_text(text, encoding="utf-8")
    assert refused(run, "balance", scenario, "--bill-from", bill) == [
        f'{bill}:1: ± mass [lb]: must be a column of errors as in "mass ± [lb]", got "± mass [lb]"'
    ]


def test_a_head_of_the_other_unit_over_the_old_numbers(run, scenario, bill):
    text = bill.read_text(encoding="utf-8")
    bill.write_text(text.replace("mass [lb]", "mass [kg]"), encoding="utf-8")
    (said,) = refused(run, "balance", scenario, "--bill-from", bill)
    assert said == (
        f"{bill}:1: mass [kg]: most masses are 2.205 times those of the scenario, as if pounds stood under a head of "
        "kilograms: give the column the unit that its numbers are of"
    )


@pytest.mark.parametrize("group", ["", "airframe"])
def test_a_row_of_sums_is_no_item(run, scenario, bill, group):
    rows = bill.read_text(encoding="utf-8").splitlines()
    total = f"Total,{group},1310" + "," * (rows[0].count(",") - 2)
    bill.write_text("\n".join([*rows, total]) + "\n", encoding="utf-8")
    assert refused(run, "balance", scenario, "--bill-from", bill) == [
        f'{bill}:{len(rows) + 1}: name: is "Total", a row of sums: leave it out'
    ]


def test_a_name_that_differs_in_blanks_or_capitals_alone_is_counted_once(run, scenario, bill):
    text = bill.read_text(encoding="utf-8")
    place = next(n for n, row in enumerate(text.splitlines(), start=1) if row.startswith("pilot,"))
    bill.write_text(text.replace("\npilot,", "\nPilot ,"), encoding="utf-8")
    assert refused(run, "balance", scenario, "--bill-from", bill) == [
        f'{bill}:{place}: name: is "Pilot ", and the scenario has "pilot": write one of them as the other'
    ]


def test_a_bill_without_the_group_that_was_weighed(run, scenario, bill):
    rows = [row for row in bill.read_text(encoding="utf-8").splitlines() if not row.startswith("pilot,")]
    bill.write_text("\n".join(rows) + "\n", encoding="utf-8")
    assert refused(run, "balance", scenario, "--bill-from", bill, "--remove-others") == [
        f"{bill}: group: has no item of pilot, which weighing.aboard says was on the scales"
    ]
