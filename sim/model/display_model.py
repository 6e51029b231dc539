"""A display that stands alone, and the one of an airplane, asked for by one name."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import degrees
from typing import TYPE_CHECKING

from sim.model.display import display_for
from sim.model.gun_options import GunOptions, gun_lines
from sim.model.model import Model
from sim.scenario.bundled import fetch
from sim.scenario.display_file import DisplayFile, is_display
from sim.scenario.reading import DEMO, load, read_table
from sim.scenario.toml_text import parse

if TYPE_CHECKING:
    import os
    from collections.abc import Iterable

    from sim.display.display import Display
    from sim.scenario.display_file import TimingTable
    from sim.synchronizer.gun_line import GunLine


@dataclass(frozen=True)
class DisplayModel:
    """A display without an airplane: what its study asks of a `Model`, from a gun line in words of timing.

    Attributes
    ----------
    file : DisplayFile
        As it was read.
    """

    file: DisplayFile

    @property
    def title(self) -> str:
        """Name of the display."""
        return self.file.title

    def display_line(self, *, ideal: bool = False) -> GunLine:
        """Return the gun line that is shown, at its one speed, with the cam of the file or the ideal one."""
        line = self._ideal if ideal else self._given
        (spin_rad_s,) = line.spin_rad_s
        return replace(line, cam=line.cam_at(spin_rad_s))

    def display(self, *, ideal: bool = False) -> Display:
        """Return what the builder specifies, with the firing windows that it shows."""
        return display_for(self.file.exhibit, self.display_line(ideal=ideal))

    @cached_property
    def _given(self) -> GunLine:
        return _line(self.file.timing, ideal=False)

    @cached_property
    def _ideal(self) -> GunLine:
        return _line(self.file.timing, ideal=True)


def _line(timing: TimingTable, *, ideal: bool) -> GunLine:
    dwell_rad = 0.0 if timing.action == "impulse" else timing.dwell_rad
    opens_rad = timing.opens_rad
    (line,) = gun_lines(
        None,
        GunOptions(
            spin_rad_s=(timing.speed_rad_s,),
            blades=timing.blades,
            blocked_deg=degrees(timing.blocked_rad),
            margin_deg=degrees(timing.margin_rad),
            delay_s=timing.delay_s,
            action=timing.action,
            impulses_per_rev=timing.windows,
            dwell_deg=None if ideal else _degrees(dwell_rad),
            opens_deg=None if ideal else _degrees(opens_rad),
            ideal=ideal,
        ),
    )
    return line


def _degrees(angle_rad: float | None) -> float | None:
    return None if angle_rad is None else degrees(angle_rad)


def display_model(path_or_name: str | os.PathLike[str] = DEMO, settings: Iterable[str] = ()) -> Model | DisplayModel:
    """Return the model of a scenario, or the display of a file that holds nothing else.

    Parameters
    ----------
    path_or_name : str or path
        A TOML file, or the name of a bundled airplane.
    settings : iterable of str
        ``table.key=value`` each, read as if it stood in the file.

    Raises
    ------
    InputError
        With every fault at once.
    """
    file = fetch(str(path_or_name))
    if not is_display(parse(file.text, file.called).data or {}):
        return Model(load(path_or_name, settings))
    return DisplayModel(read_table(file.text, DisplayFile, called=file.called, settings=settings)[0])
