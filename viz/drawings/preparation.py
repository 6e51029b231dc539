"""What is done before the steps: gluing, painting, balancing, how pins are pressed in; and how true a part is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.bench import pin_depths
from viz.drawings.build_steps import TIGHTENED, tightening_table
from viz.drawings.flat_parts import cut_parts
from viz.drawings.raw_stock import made_from
from viz.files.typst import text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.sheets.format import Units
    from viz.sheets.typst import Pages

TOLERANCE: dict[Units, str] = {
    "si": "Sizes without a class: ISO 2768-m. Places of holes ± 0.1 mm. Edges broken 0.3 mm.",
    "us": "Sizes without a class: ± 0.005 in. Places of holes ± 0.004 in. Edges broken 0.01 in.",
}
"""Of parts of metal and of small parts of plastic; ISO 2768-1, and common practice, no source."""
BOARDS: dict[Units, str] = {
    "si": "Outline ± 1 mm. Places of holes ± 0.3 mm. Edges broken 0.5 mm.",
    "us": "Outline ± 0.04 in. Places of holes ± 0.012 in. Edges broken 0.02 in.",
}
"""Of boards and clear panels; common practice, no source."""
BOARD = ("birch plywood", "polycarbonate")
PINS = (
    "Cross pins: press each in with a screw clamp, a drift on the pin and a prop with a hole for it below the boss, "
    "until its middle is in the shaft, its ends as far below the surface as told: {depths}. No hammer: a blow goes "
    "into the ball bearings and cracks the front panel. Drill the cross holes after the stack of step 1 is measured."
)
BALANCE = (
    "Balance the propeller: painted, between propeller hub and propeller clamp, on one of the loose shafts laid "
    "level on two edges. Sand the tip that sinks until it stays at any angle."
)


def tolerance(material: str, units: Units) -> str:
    """Return how true the sizes of a part of a material are, where they have no class."""
    return (BOARDS if material in BOARD else TOLERANCE)[units]


def prepared(exhibit: Exhibit, assembly: Assembly) -> tuple[str, ...]:
    """Return what is done before the first step, in order."""
    cuts = cut_parts(exhibit)
    layers = {one.part.name: made_from(one, assembly) for one in cuts}
    glued = (
        f"Glue the {name} of boards {told}: glue on the whole of one face, clamps or weights every 0.1 m (4 in) "
        f"with a "
        "batten below them, a night long. Cut the outline and drill through all boards together."
        for name, told in layers.items()
        if "glued" in told
    )
    wooden = dict.fromkeys(one.part.name for one in cuts if one.part.material == "birch plywood")
    paint = (
        f"Paint {', '.join(wooden)}: all holes drilled, edges sanded, two thin coats, a night between. Mask the "
        f"faces "
        "that plates or panel are clamped to and those that are glued or screwed together: paint there changes the "
        "stack. No paint in bores."
    )
    return (*glued, paint, BALANCE, PINS.format(depths=pin_depths(assembly)))


def pages(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the page of what is done before step 1, and that of screws to tighten."""
    yield "= Before step 1: to glue, to paint, to balance"
    yield "\n".join(f"+ {text(line)}" for line in prepared(exhibit, assembly))
    yield "= Screws to tighten"
    yield pages.markup([tightening_table(assembly)])
    yield "\n".join(f"- {text(line)}" for line in TIGHTENED)
