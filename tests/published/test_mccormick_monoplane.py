"""B. W. McCormick, Aerodynamics, Aeronautics, and Flight Mechanics, 2nd ed. 1995, chapters 9 and 10: a monoplane.

Mark P: read in a public transcription that quotes the dimensional derivatives of the book (the type is a Piper Cherokee
180; 2400 lb, 157.5 ft², 30 ft, 5.25 ft, 146.69 ft/s at sea level) and divides them, where the dimensions show that a
factor of speed was lost in the division of three. They are the author's own estimates as far as is known, no
measurement. Left out: the stability in pitch, for where the centre of gravity was is not said; the controls, for what a
unit of deflection is neither. Dihedral, tail, fin and fuselage are from memory.
"""

from pathlib import Path

import pytest

SCENARIO = Path(__file__).with_name("mccormick_monoplane.toml")
FORCE = 0.5 * 0.00238 * 146.69**2 * 157.5
"""Dynamic pressure times wing area. [lb]"""
SWING = 0.00238 * 146.69 * 157.5 * 5.25**2 / 4.0
"""What a pitch rate of 1 rad/s is multiplied with, over its coefficient. [lb ft s]"""
PRINTED = {
    "lift_alpha": 19149.0 / FORCE,
    "pitch_alpha_dot": -892.4 / SWING,
    "pitch_q": -2405.1 / SWING,
    "side_beta": -1169.8 / FORCE,
    "side_p": -0.0342,
    "roll_beta": -12891.0 / (FORCE * 30.0),
    "roll_p": -0.470,
    "roll_r": 0.1665,
    "yaw_beta": 11127.2 / (FORCE * 30.0),
    "yaw_p": -0.0691,
    "yaw_r": -0.0930,
}

FAR = {"side_p": {"within": 0.12, "why": "farther off than three standard deviations: dihedral has a part in it"}}


@pytest.mark.parametrize("name", PRINTED)
def test_estimates(estimated, name, printed):
    value, band = estimated(SCENARIO, 1.0, "flat_four")[name]
    printed(
        value, f"{PRINTED[name]:.3g}", row=f"McCormick's monoplane: {name}", band=band, kind=name, **FAR.get(name, {})
    )
