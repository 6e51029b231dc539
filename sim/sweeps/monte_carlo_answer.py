"""What `sim.sweeps.monte_carlo` answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.sweeps.grid import SweepRow
    from sim.sweeps.outputs import SweepColumn
    from sim.sweeps.sampling import Sampling
    from sim.sweeps.sobol import Share


@dataclass(frozen=True, slots=True)
class SpreadInput:
    """One value of the scenario that was written with a ±.

    Attributes
    ----------
    column : SweepColumn
        Its key and unit.
    nominal : float
        As it stands. [SI]
    tolerance : float
        One standard deviation. [SI]
    matters : bool
        Whether a change of it changes anything in the answers of the studies asked.
    """

    column: SweepColumn
    nominal: float
    tolerance: float
    matters: bool


@dataclass(frozen=True, slots=True)
class SpreadResult:
    """One value collected, over all draws.

    Attributes
    ----------
    column : SweepColumn
        Its path and unit.
    nominal : float or None
        With every value as it stands; None where there is no answer.
    median, low_5, high_95 : float or None
        Half of the draws lie below the median, five in a hundred below and above the others; of the draws that have
        an answer, None where none has.
    shares : tuple of Share
        Of the inputs that matter, the greatest first; empty where some draws have no answer.
    """

    column: SweepColumn
    nominal: float | None
    median: float | None
    low_5: float | None
    high_95: float | None
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class Spread(Answer):
    """The answer of `whirlgate sweep --spread`.

    Attributes
    ----------
    title : str
        Of the scenario.
    sampling : str
        ``latin`` hypercube or ``sobol`` sequence.
    seed : int
        Same seed, same draws.
    inputs : tuple of SpreadInput
        Everything with a ±, in the order of the scenario.
    results : tuple of SpreadResult
        In the order asked for.
    rows : tuple of SweepRow
        Every draw: the inputs that matter, the results, and why where there is none.
    """

    main: ClassVar[str] = "results"

    title: str
    sampling: Sampling
    seed: int
    inputs: tuple[SpreadInput, ...]
    results: tuple[SpreadResult, ...]
    rows: tuple[SweepRow, ...]
