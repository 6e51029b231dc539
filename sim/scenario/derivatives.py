"""The table of aerodynamic derivatives that a user may give in the place of their estimates."""

from typing import Annotated

from sim.scenario.fields import Given, ScenarioTable


def _slope(what: str, symbol: str, example: str) -> Given:
    return Given("1", f"{what}, {symbol}", least=-100.0, most=100.0, example=example)


class DerivativesTable(ScenarioTable):
    """Derivatives per radian; rates as q c/2V, p b/2V, r b/2V. One that is not given is estimated from geometry.

    A positive elevator, aileron or rudder makes a negative moment: nose down, left roll, nose left. They are about the
    centre of gravity that wing.arm is measured from.
    """

    lift_alpha: Annotated[float | None, _slope("lift due to angle of attack", "CLα", "4.4")] = None
    lift_q: Annotated[float | None, _slope("lift due to pitch rate", "CLq", "4.0")] = None
    lift_elevator: Annotated[float | None, _slope("lift due to elevator", "CLδe", "0.35")] = None
    pitch_0: Annotated[float | None, _slope("pitching moment at zero angle of attack", "Cm0", "0.02")] = None
    pitch_alpha: Annotated[float | None, _slope("pitching moment due to angle of attack", "Cmα", "-0.6")] = None
    pitch_alpha_dot: Annotated[float | None, _slope("due to rate of angle of attack", "Cmα̇", "-4.0")] = None
    pitch_q: Annotated[float | None, _slope("pitching moment due to pitch rate", "Cmq", "-9.0")] = None
    pitch_elevator: Annotated[float | None, _slope("pitching moment due to elevator", "Cmδe", "-0.9")] = None
    side_beta: Annotated[float | None, _slope("side force due to sideslip", "CYβ", "-0.5")] = None
    side_p: Annotated[float | None, _slope("side force due to roll rate", "CYp", "0")] = None
    side_r: Annotated[float | None, _slope("side force due to yaw rate", "CYr", "0.2")] = None
    side_rudder: Annotated[float | None, _slope("side force due to rudder", "CYδr", "0.15")] = None
    roll_beta: Annotated[float | None, _slope("rolling moment due to sideslip", "Clβ", "-0.07")] = None
    roll_p: Annotated[float | None, _slope("rolling moment due to roll rate", "Clp", "-0.4")] = None
    roll_r: Annotated[float | None, _slope("rolling moment due to yaw rate", "Clr", "0.1")] = None
    roll_aileron: Annotated[float | None, _slope("rolling moment due to aileron", "Clδa", "-0.13")] = None
    roll_rudder: Annotated[float | None, _slope("rolling moment due to rudder", "Clδr", "0.01")] = None
    yaw_beta: Annotated[float | None, _slope("yawing moment due to sideslip", "Cnβ", "0.07")] = None
    yaw_p: Annotated[float | None, _slope("yawing moment due to roll rate", "Cnp", "-0.06")] = None
    yaw_r: Annotated[float | None, _slope("yawing moment due to yaw rate", "Cnr", "-0.12")] = None
    yaw_aileron: Annotated[float | None, _slope("yawing moment due to aileron", "Cnδa", "0.004")] = None
    yaw_rudder: Annotated[float | None, _slope("yawing moment due to rudder", "Cnδr", "-0.07")] = None

    def given(self) -> dict[str, float]:
        """Return those that the user gave, by name."""
        return self.model_dump(exclude_none=True)
