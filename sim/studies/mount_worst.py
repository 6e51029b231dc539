"""The case that sets each bolt and tube of a mount, by its margin, and the least standard tube that would hold."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypedDict

from sim.structures.load_cases import ULTIMATE
from sim.structures.member_strength import least_size, margin_low
from sim.studies.mount_answer import WorstBolt, WorstTube
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.mount import Mount
    from sim.studies.mount_answer import MountCase, MountTube


class Worst(TypedDict):
    """The fields of a mount's answer on its margins."""

    worst_bolts: tuple[WorstBolt, ...]
    worst_tubes: tuple[WorstTube, ...]
    worst_bolt: str
    worst_tube: str
    sources: tuple[str, ...]


def worst(cases: Sequence[MountCase], drawn: Mount, tubes: Sequence[MountTube]) -> Worst:
    """Return the case that sets each bolt and tube.

    Parameters
    ----------
    cases : sequence of MountCase
        Of the powerplant on the mount.
    drawn : Mount
        Whose bolts and tubes these are.
    tubes : sequence of MountTube
        As long as they are where the engine stands.
    """
    bolt_rows, tube_rows = tuple(_worst_bolts(cases, drawn)), tuple(_worst_tubes(cases, drawn, tubes))
    return {
        "worst_bolts": bolt_rows,
        "worst_tubes": tube_rows,
        "worst_bolt": min(bolt_rows, key=lambda row: row.margin).bolt if bolt_rows else "",
        "worst_tube": min(tube_rows, key=lambda row: row.margin).tube if tube_rows else "",
        "sources": tuple(_sources(drawn)),
    }


def _worst_bolts(cases: Sequence[MountCase], drawn: Mount) -> Iterator[WorstBolt]:
    for place, bolt in enumerate(drawn.bolts):
        case = min(cases, key=lambda case: case.bolts[place].margin)
        load = case.bolts[place]
        yield WorstBolt(
            bolt.name,
            case.powerplant,
            case.name,
            load.shear_n,
            axial_n=load.axial_n,
            stress_pa=load.stress_pa,
            margin=load.margin,
            margin_low=margin_low(load.margin, bolt.material.strength_scatter),
        )


def _worst_tubes(cases: Sequence[MountCase], drawn: Mount, tubes: Sequence[MountTube]) -> Iterator[WorstTube]:
    for place, (tube, one) in enumerate(zip(drawn.tubes, tubes, strict=True)):
        case = min(cases, key=lambda case: case.tubes[place].margin)
        load = case.tubes[place]
        all_n = [ULTIMATE * case.tubes[place].axial_n for case in cases]
        yield WorstTube(
            tube.name,
            case.powerplant,
            case.name,
            load.axial_n,
            euler_margin=load.euler_margin,
            margin=load.margin,
            margin_low=margin_low(load.margin, tube.material.strength_scatter),
            least_size=least_size(tube.size, all_n, one.length_m) or "",
            slenderness=load.slenderness,
        )


def _sources(drawn: Mount) -> Iterator[str]:
    for of, parts in (("bolts, {material}: {source}", drawn.bolts), ("tubes, {material}: {source}", drawn.tubes)):
        for material in dict.fromkeys(part.material for part in parts):
            yield told(of, material=material.name, source=material.source)
