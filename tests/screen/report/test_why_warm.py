"""What the report says of a gun's oil in the wind: stiff after a time, from the start, later, or never."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from airplanes import BIPLANE
from shared import built

from sim.studies.cooling import cooling
from viz.report.answers import why_warm
from viz.sheets.text import text_of


def said(start_k=288.15, **changed) -> str:
    model = SimpleNamespace(
        **{
            name: getattr(built(BIPLANE), name)
            for name in ("receiver_altitude_m", "receiver_speed_m_s", "heat_per_round_j", "mean_rate_per_s")
        },
        receiver=replace(built(BIPLANE).receiver, start_k=start_k),
    )
    return text_of(why_warm(SimpleNamespace(cooling=cooling(model, **changed))), "us").replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        ({}, "Why guns were kept warm: at 16000 ft the oil of a silent gun exposed to the airstream stiffens in about"),
        ({"duration_s": 300.0}, "At 16000 ft the oil of a silent gun exposed to the airstream still flows after 5 min"),
        ({"start_k": 253.15}, "At 16000 ft the oil of a silent gun exposed to the airstream is stiff from the start."),
        ({"altitude_m": 100.0}, "At 328.1 ft the oil of a gun exposed to the airstream stays fluid."),
    ],
)
def test_it_says_what_becomes_of_the_oil(changed, expected):
    assert said(**changed).startswith(expected)
