"""Every study that a report asks of one scenario, each asked once and only when somebody wants its answer."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from viz.report.drawings import Drawings

if TYPE_CHECKING:
    from sim.live.scene_data import Stage
    from sim.model.model import Model
    from sim.scenario.tables import Scenario
    from sim.studies.balance_answer import BalanceAnswer
    from sim.studies.burst_answer import BurstAnswer
    from sim.studies.compare import Comparison, PowerplantComparison
    from sim.studies.cooling import CoolingAnswer
    from sim.studies.derivatives import DerivativesAnswer
    from sim.studies.drag import DragAnswer
    from sim.studies.drawing_answer import DrawingAnswer
    from sim.studies.exhibit import Exhibit
    from sim.studies.handling_answer import Handling
    from sim.studies.maneuver_answer import ManeuverAnswer
    from sim.studies.mount_answer import MountAnswer
    from sim.studies.rate_answer import RateAnswer
    from sim.studies.rotor_effect import RotorEffect
    from sim.studies.safe_range_answer import SafeRangeAnswer
    from sim.studies.speeds import SpeedsAnswer
    from sim.studies.standing import Standing
    from sim.studies.windows_answer import WindowsAnswer
    from sim.sweeps.local_sensitivity import Sensitivity
    from viz.report.other_airplane import OtherAirplane
    from viz.sheets.format import Units

ROUNDS = 1_000_000
"""Rounds simulated for the burst figure: strikes in a thousand come out to three figures."""

SENSITIVITY_OF = (
    ("summary", "first.left_rudder_share", "rudder required by the rotor of the {first} in a left turn"),
    ("balance", "target_move_m", "engine displacement to the CG target"),
    ("mount", "worst_bolts.1.stress_pa", "largest stress in the first bolt of the mount"),
)
"""Study, path to its number, and what that is called: what the report asks the ± about."""


class Findings:
    """The answers about one scenario, and those about another one that it is compared with.

    Every attribute raises what its study raises: `InputError` where the scenario lacks a table, `NoAnswerError` where
    the question has no answer.
    """

    def __init__(
        self,
        scenario: Scenario,
        units: Units,
        *,
        called: str,
        settings: tuple[str, ...] = (),
        processes: int = 1,
        other: OtherAirplane | None = None,
    ) -> None:
        self.scenario = scenario
        self.units = units
        self.called = called
        self.settings = settings
        self.drawings = Drawings(units, processes)
        self.other = other

    @cached_property
    def written(self) -> Model:
        """The airplane as the scenario says it."""
        from sim.model.model import Model

        return Model(self.scenario)

    @cached_property
    def model(self) -> Model:
        """The airplane that is flown, balanced and mounted: each engine where its move or the CG target puts it."""
        from sim.studies.standing import placed

        return placed(self.written)

    @cached_property
    def stands(self) -> dict[str, Standing]:
        """Where each engine stands, and why."""
        from sim.studies.standing import standing

        return {name: standing(self.written, name) for name in self.written.powerplants}

    @cached_property
    def comparison(self) -> Comparison:
        """Every powerplant side by side, with bands."""
        from sim.studies.compare import compare

        return compare(self.model, bands=True)

    @property
    def most_spin(self) -> tuple[str, PowerplantComparison]:
        """Name and comparison of the powerplant with the most angular momentum."""
        return max(self.comparison.powerplants.items(), key=lambda item: abs(item[1].angular_momentum_kg_m2_s))

    @property
    def least_spin(self) -> tuple[str, PowerplantComparison]:
        """Name and comparison of the powerplant with the least angular momentum."""
        return min(self.comparison.powerplants.items(), key=lambda item: abs(item[1].angular_momentum_kg_m2_s))

    @cached_property
    def handling_sweep(self) -> Handling:
        """Turns at every bank of the figure."""
        from sim.studies.handling import SWEEP_DEG, handling

        return handling(self.model, banks_deg=SWEEP_DEG)

    @cached_property
    def handling(self) -> Handling:
        """At the banks of the sheet, with its bands."""
        from sim.studies.handling import handling

        return handling(self.model, bands=True)

    @cached_property
    def summary(self) -> RotorEffect:
        """The rotor's effect on handling, with bands."""
        from sim.studies.rotor_effect import rotor_effect

        return self.comparison.rotor_effect or rotor_effect(self.model, bands=True)

    @cached_property
    def reversal(self) -> ManeuverAnswer:
        """From a steady turn into the opposite one, with bands."""
        from sim.studies.maneuver import maneuver

        return maneuver(self.model, "reversal", bands=True)

    @cached_property
    def derivatives(self) -> DerivativesAnswer:
        """Every derivative with its error band."""
        from sim.studies.derivatives import derivatives

        return derivatives(self.model)

    @cached_property
    def drag(self) -> DragAnswer:
        """Drag and greatest lift, built up."""
        from sim.studies.drag import drag

        return drag(self.model)

    @cached_property
    def speeds(self) -> SpeedsAnswer:
        """Stall to top speed, with their bands."""
        from sim.studies.speeds import speeds

        return speeds(self.model, bands=True)

    @cached_property
    def drawing(self) -> DrawingAnswer:
        """Three-view of the airplane with the engine that is balanced."""
        from sim.studies.drawing import drawing

        return drawing(self.model)

    @cached_property
    def stage(self) -> Stage:
        """What the viewer shows of the airplane."""
        from sim.live.scene_data import stage

        return stage(self.model)

    @cached_property
    def drawing_most_spin(self) -> DrawingAnswer:
        """Three-view of the airplane with the engine that has the most angular momentum."""
        from sim.studies.drawing import drawing

        return drawing(self.model, powerplant=self.most_spin[0])

    @cached_property
    def balance(self) -> BalanceAnswer:
        """Weights, loadings and the engine's place."""
        from sim.airframe.engine_position import STEPS_M
        from sim.studies.balance import balance

        return balance(self.model, step_m=STEPS_M[self.units])

    @cached_property
    def mount(self) -> MountAnswer:
        """Loads on the mount."""
        from sim.studies.mount import mount

        return mount(self.written)

    @cached_property
    def windows(self) -> WindowsAnswer:
        """Firing windows of each powerplant at idle, cruise and full speed."""
        from sim.studies.windows import windows

        return windows(self.written)

    @cached_property
    def rate(self) -> RateAnswer:
        """Rate of fire from idle to full speed."""
        from sim.studies.rate import rate

        return rate(self.written)

    @cached_property
    def safe_range(self) -> SafeRangeAnswer:
        """Safe speeds of a fixed cam."""
        from sim.studies.safe_range import safe_range

        return safe_range(self.written)

    @cached_property
    def burst(self) -> BurstAnswer:
        """Many bursts with everything that scatters."""
        from sim.studies.burst import burst

        return burst(self.written, rounds=ROUNDS)

    @cached_property
    def exhibit(self) -> Exhibit:
        """The inert display."""
        from sim.studies.exhibit import exhibit

        return exhibit(self.written)

    @cached_property
    def sensitivity(self) -> dict[str, Sensitivity]:
        """What the designer's numbers hang on, by what they are called; those that have no answer are left out."""
        from sim.errors import InputError, NoAnswerError
        from sim.studies.standing import placing
        from sim.sweeps.local_sensitivity import sensitivity
        from sim.sweeps.parameters import setting
        from sim.told import told

        wanted = {}
        for study, path, name in SENSITIVITY_OF:
            try:
                getattr(self, study)
                wanted[told(name, first=self.most_spin[0])] = f"{study}.{path}"
            except (InputError, NoAnswerError):
                continue
        there = [setting(key, at_m, "m", self._move_error_m(key)) for key, at_m in placing(self.written).items()]
        answers = sensitivity(self.called, collect=wanted.values(), settings=(*self.settings, *there))
        return {name: self._as_stated(one) for name, one in zip(wanted, answers, strict=True)}

    def _move_error_m(self, key: str) -> float:
        """Return how well the place of an engine that stands at the CG target is known, by the key of its move [m]."""
        from sim.studies.balance import balance

        return balance(self.model, powerplant=key.split(".")[1]).engine_move_error_m

    def _as_stated(self, one: Sensitivity) -> Sensitivity:
        """Return the sensitivity of an answer that states its own error with that error, so that both say the same."""
        from sim.sweeps.local_sensitivity import of_error

        return of_error(one, self.balance.engine_move_error_m) if one.column.name == "target_move_m" else one

    @cached_property
    def cooling(self) -> CoolingAnswer:
        """How the gun's receiver cools in flight."""
        from sim.studies.cooling import cooling

        return cooling(self.written)
