"""Physics of a spinning rotor in an airplane and of a gun timed between propeller blades: numbers in, results out.

The functions of `sim.interface` are had from here, each loaded when it is first used::

    import sim

    airplane = sim.load("tollgate", set=["wing.span=27 ft 6 in"])
    sim.handling(airplane, banks_deg=(-45.0, 45.0)).to_json()
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from sim.interface import load as load


def __getattr__(name: str) -> Any:  # noqa: ANN401
    from sim.interface import function

    found = globals()[name] = function(name)
    return found


def __dir__() -> list[str]:
    from sim.interface import NAMES

    return [*NAMES, "__version__"]
