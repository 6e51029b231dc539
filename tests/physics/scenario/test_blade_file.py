"""A blade as CSV: read in any order of columns and with any usual mark, every fault with its line."""

import pytest

from sim.errors import InputError
from sim.scenario.blade_file import BladeFile, read_blade

BLADE = BladeFile((0.23, 0.61, 0.97), (0.041, 0.072, 0.031), (41.0, 22.5, 13.5))


@pytest.mark.parametrize(
    "text",
    [
        "radius_share,chord_share,angle_deg\n0.23,0.041,41\n0.61,0.072,22.5\n0.97,0.031,13.5\n",
        "radius_share;chord_share;angle_deg\r\n0,23;0,041;41\r\n\r\n0,61;0,072;22,5\r\n0,97;0,031;13,5\r\n",
        "note\tangle_deg\tradius_share\tchord_share\nroot\t41\t.23\t.041\n\t22 1/2\t.61\t.072\ntip\t13.5\t.97\t.031",
    ],
)
def test_what_is_read(tmp_path, text):
    file = tmp_path / "blade.csv"
    file.write_text(text, encoding="utf-8")
    assert read_blade(file) == BLADE


HEAD = "radius_share,chord_share,angle_deg\n"
MISSING = "is missing: a column of that name"


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("", [f"1: {name}: {MISSING}" for name in ("radius_share", "chord_share", "angle_deg")]),
        ("radius_share,chord,angle_deg\n.3,.05,30\n", [f"1: chord_share: {MISSING}"]),
        (HEAD + ".3,.05,30\n", ["2: radius_share: must have at least 2 rows"]),
        (HEAD + ".3,.05,30\n.3,.05,20\n", ['3: radius_share: must be greater than 0.3 in the row above, got "0.3"']),
        (
            HEAD + ".3,.9,30\n1.2,.05,20\n.9,x\n",
            [
                '2: chord_share: must be 0 to 0.5, got ".9"',
                '3: radius_share: must be 0.01 to 1, got "1.2"',
                '4: chord_share: must be a number without a unit, as in "45.5", got "x"',
                '4: angle_deg: must be a number without a unit, as in "45.5", got ""',
            ],
        ),
    ],
)
def test_every_fault_at_once(tmp_path, text, sentences):
    file = tmp_path / "blade.csv"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_blade(file)
    assert str(refused.value).splitlines() == [f"{file}:{sentence}" for sentence in sentences]


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(InputError, match="cannot be read: no such file"):
        read_blade(tmp_path / "none.csv")
