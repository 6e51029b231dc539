"""The truss of a mount as it is cut: its nodes with the engine where it stands, and the lengths of its tubes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, rows, say
from viz.sheets.stations import moved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.structures.truss import Node
    from sim.studies.mount_answer import MountAnswer, MountTube
    from viz.sheets.blocks import Cell, Table

MEASURED = "From the point where the shaft axis meets the firewall; right as seen from the cockpit."
BETWEEN = "Between nodes along the centre line: cut longer, and fit the ends on the jig."
HELD = {"airframe": "firewall", "engine": "engine lug", "free": "tubes"}
"""What holds a node -> its word."""


def truss(answer: MountAnswer) -> Iterator[Table]:
    """Yield nodes and tubes of the truss."""
    move = moved("engine_move_m", answer.engine_move_m[answer.powerplant])
    title = say("Nodes of the truss, the engine {move} from where it is drawn", move=move)
    yield rows(title, ["Node", "Ahead", "Right", "Up", "At"], map(_node, answer.nodes), MEASURED)
    yield rows("Tubes of the truss", ["Tube", "From", "To", "Length", "Size"], map(_tube, answer.tubes), BETWEEN)


def _node(node: Node) -> tuple[Cell, ...]:
    ahead_m, right_m, down_m = node.place_m
    places = (Value("place_m", place_m + 0.0, digits=4) for place_m in (ahead_m, right_m, -down_m))
    return (_words(node.name), *places, HELD[node.held])


def _tube(tube: MountTube) -> tuple[Cell, ...]:
    size = say(
        "{diameter} x {wall}",
        diameter=Value("wall_m", tube.diameter_m, plain=True, digits=4),
        wall=Value("wall_m", tube.wall_m, plain=True, digits=4),
    )
    return _words(tube.tube), _words(tube.start), _words(tube.end), Value("place_m", tube.length_m, digits=4), size


def _words(name: str) -> str:
    return name.replace("_", " ")
