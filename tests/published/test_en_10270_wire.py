"""EN 10270-1, patented cold-drawn spring wire, grade DH: nominal diameters and least tensile strength. Mark P.

Read in a wire drawer's reproduction of the table. The strength law of music wire used here must stay below the
largest strength of the table, and is at most 5 % away from the least.
"""

import pytest

from sim.display.spring_wire import WIRES_MM, tensile_strength

ROWS = {
    0.20: (2800, 3110),
    0.22: (2770, 3080),
    0.25: (2720, 3010),
    0.28: (2680, 2970),
    0.30: (2660, 2940),
    0.32: (2640, 2920),
    0.36: (2590, 2870),
}


@pytest.mark.parametrize("wire_mm", ROWS)
def test_the_wire_is_a_nominal_size_and_its_strength_lies_low(wire_mm, printed):
    least, most = ROWS[wire_mm]
    assert wire_mm in WIRES_MM
    strength, why = float(tensile_strength(wire_mm / 1e3)) / 1e6, "a law through all sizes of another wire"
    row = f"least tensile strength, wire {wire_mm:.2f} mm"
    printed(strength, f"{least}", "MPa", row=row, share=0.05, why=why)
    assert strength < (least + most) / 2.0
