"""Two pages for visitors: why a spinning engine turned the nose, and how guns fired between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.atmosphere import GRAVITY_M_S2
from sim.errors import InputError, NoAnswerError
from viz.report.page import HandoutPage, handout_page
from viz.sheets.blocks import Picture, Sentence, Value
from viz.sheets.text import text_of
from viz.words.catalogue import locale
from viz.words.say import NO_BREAK, numeral, say

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.studies.compare import PowerplantComparison
    from viz.figures.complete import Drawing
    from viz.report.findings import Findings
    from viz.sheets.format import Units
    from viz.stage.snapshot import SceneName

BANK_DEG = 45.0
LEVERS_M: dict[Units, float] = {"si": 1.5, "us": 1.524}
"""From the middle of a seesaw to who sits on it: a metre and a half, or five feet."""
HEAVIEST_CHILD_KG = 45.0


class Handout:
    """The pages about one airplane, in one language and its units."""

    def __init__(self, found: Findings, language: str, units: Units) -> None:
        self._found, self._language, self._units = found, language, units

    def page(self, address: str | None = None) -> str:
        """Return the two pages as one HTML file; the first alone for an airplane without a gun.

        Parameters
        ----------
        address : str or None
            Where the page for telephones is: its code stands on the last page.
        """
        made = [HandoutPage("nose", self._say("nose"), tuple(self._whole(self._nose)))]
        if self._found.written.has_gun:
            made.append(HandoutPage("blades", self._say("gun"), tuple(self._whole(self._blades))))
        return handout_page(
            tuple(made),
            language=str(locale(self._language)),
            foot=f"{self._say('for', title=self._found.scenario.title)} {say(self._language, 'overlay.strip')}",
            title=self._found.scenario.title,
            code=(address, self._say("code")) if address else None,
        )

    def _say(self, key: str, **values: object) -> str:
        return say(self._language, f"handout.{key}", **values)

    def _said(self, value: Value) -> str:
        return numeral(text_of(value, self._units), self._language).replace(" ", NO_BREAK)

    def _whole(self, parts: Callable[[], Iterator[Callable[[], str | Picture]]]) -> Iterator[Sentence | Picture]:
        """Yield what can be said and shown; visitors are told nothing of what cannot."""
        for part in parts():
            try:
                one = part()
            except (InputError, NoAnswerError):
                continue
            yield one if isinstance(one, Picture) else Sentence("{said}", {"said": one})

    def _nose(self) -> Iterator[Callable[[], str | Picture]]:
        yield self._three
        yield lambda: self._say("try")
        yield lambda: self._stage("turning")
        yield self._spin
        yield self._push
        yield self._feet

    def _blades(self) -> Iterator[Callable[[], str | Picture]]:
        yield self._blade
        yield lambda: self._stage("blades")
        yield self._lead
        yield self._chances
        yield lambda: self._say("lamp")

    def _three(self) -> Picture:
        from viz.figures.visitors import ForVisitors

        answer = self._found.drawing_most_spin
        sizes_m = answer.sizes_m()
        span, length = (self._said(Value("length_m", sizes_m[name], decimals=1)) for name in ("span", "length"))
        size = self._say("size", span=span, length=length)
        begun = self._found.drawings.begin("visitors", ForVisitors(answer, self._units, size.replace(", ", "\n")))
        return Picture(begun, self._say("three"), _plain(f"{self._say('three')}: {size}."))

    def _stage(self, which: SceneName) -> Picture:
        from viz.report.stage_picture import stage_picture

        drawing: Callable[[], Drawing] = stage_picture(self._found.stage, which, self._units, self._language)
        alt = say(self._language, f"page.sees_{which}")
        return Picture(drawing, say(self._language, f"scene.{which}"), _plain(alt))

    def _spin(self) -> str:
        (most, first), (least, _) = self._found.most_spin, self._found.least_spin
        if most == least:
            raise NoAnswerError(most)
        return self._say("spin", ratio=text_of(Value("momentum_ratio", first.momentum_ratio, digits=2), self._units))

    def _push(self) -> str:
        left, right = (_moment_n_m(self._found.most_spin[1], bank) for bank in (-BANK_DEG, BANK_DEG))
        lever_m = LEVERS_M[self._units]
        mass_kg = max(abs(left), abs(right)) / (GRAVITY_M_S2 * lever_m)
        mass = self._said(Value("mass_kg", mass_kg, decimals=0))
        return self._say(
            "push",
            left=say(self._language, f"effect.nose_{'up' if left > 0.0 else 'down'}"),
            right=say(self._language, f"effect.nose_{'up' if right > 0.0 else 'down'}"),
            weight=self._say("child", mass=mass) if mass_kg <= HEAVIEST_CHILD_KG else mass,
            lever=self._said(Value("length_m", lever_m, digits=2, plain=True)),
        )

    def _feet(self) -> str:
        first, second = self._found.summary.first, self._found.summary.second
        if first.powerplant == second.powerplant:
            raise NoAnswerError(first.powerplant)
        shares = (round(100.0 * abs(one.left_rudder_share)) for one in (first, second))
        return self._say("feet", **dict(zip(("first", "second"), shares, strict=True)))

    def _full_speed(self) -> tuple[float, float]:
        """Return interval between blades [ms] and lead [°] of the engine with the most spin at full speed."""
        name = self._found.most_spin[0]
        row = [row for row in self._found.windows.rows if row.powerplant == name][-1]
        return row.blade_interval_ms, row.lead_deg

    def _blade(self) -> str:
        return self._say("blade", count=round(1000.0 / self._full_speed()[0]))

    def _lead(self) -> str:
        return self._say("lead", lead=self._said(Value("lead_deg", self._full_speed()[1], decimals=0)))

    def _chances(self) -> str:
        from viz.stage.scenes.tally import chances
        from viz.stage.worlds.blades import BladesWorld

        return chances(BladesWorld(self._found.stage, seed=0).view(), self._language)


def _moment_n_m(one: PowerplantComparison, bank_deg: float) -> float:
    """Return how hard the spin pushes the nose up in a turn of that bank, left negative [N m]."""
    turn = next(turn for turn in one.turns if turn.bank_deg == bank_deg)
    if turn.effect == "none":
        raise NoAnswerError(turn.effect)
    return turn.pitch_n_m


def _plain(words: str) -> Sentence:
    return Sentence("{words}", {"words": words})
