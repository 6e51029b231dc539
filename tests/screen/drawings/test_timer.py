"""The timer of the lamp: its function blocks, run as IEC 61131-3 says, do all that the table says."""

import random
import re
from itertools import pairwise

import pytest
from displays import VARIANTS, built, put_together

from viz.drawings import sundries, timer, wiring

PAUSE_S = float(timer.PAUSE.removesuffix(" s"))
SCAN_S = 0.01
(OUTPUT,) = re.findall(r"the output is Q1 of (\w+)", timer.blocks().title)


class Loaded:
    """Function blocks as the page joins them, read from its words and run once a scan."""

    def __init__(self):
        self.joined = {(block, pin): words for block, pin, words in timer.BLOCKS}
        self.seen = {"input": False, "R_TRIG": False, "TP": False, "RS": False}
        self.clock, self.since = False, None

    def of(self, block, pin):
        """Return what is joined to an input: all of its terms."""
        terms = self.joined[block, pin].split(", and ")
        return all(self.term(each) for each in terms)

    def term(self, words):
        wanted = not words.startswith("not ")
        name = words.removeprefix("not ")
        if name != "input":
            pin, name = name.split(" of ")
            assert pin == {"R_TRIG": "Q", "TP": "Q", "RS": "Q1"}[name]
        return self.seen[name] == wanted

    def scan(self, on, now_s):
        seen = self.seen
        seen["input"] = on
        clock = self.of("R_TRIG", "CLK")
        seen["R_TRIG"], self.clock = clock and not self.clock, clock
        seen["RS"] = (self.of("RS", "S") or seen["RS"]) and not self.of("RS", "R1")
        start = self.of("TP", "IN")
        if self.since is None and start:
            self.since = now_s
        if self.since is not None and now_s - self.since >= float(self.joined["TP", "PT"].removesuffix(" s")) - 1e-9:
            seen["TP"] = False
            self.since = self.since if start else None
        else:
            seen["TP"] = self.since is not None
        return seen[OUTPUT]


@pytest.mark.parametrize("seed", range(6))
def test_the_blocks_do_what_the_table_says(seed):
    """A hand that turns to and fro: the rule is stated again here; where the pause just ends, a scan may differ."""
    drawn, loaded = random.Random(seed), Loaded()
    lit, before, last_s, left, flashes, missed = False, False, -9.0, 0, [], 0
    on = False
    for step in range(4000):
        now_s = step * SCAN_S
        if left == 0:
            on, left = not on, drawn.choice((3, 8, 15, 31, 57, 120))
        left -= 1
        if on and not before:
            rises = now_s - last_s >= PAUSE_S + SCAN_S
            missed += not rises
            sure = rises or now_s - last_s < PAUSE_S - SCAN_S
            lit = rises if sure else None
        before = on
        said = loaded.scan(on, now_s)
        if lit is None:
            lit = said
        if not on:
            lit = False
        assert said == lit, now_s
        if said and (not flashes or not flashes[-1][1]):
            last_s = now_s
        flashes.append((now_s, said))
    begins = [now for (_, was), (now, said) in pairwise(flashes) if said and not was]
    assert len(begins) > 10
    assert missed > 3
    assert min(after - one for one, after in pairwise(begins)) >= PAUSE_S - 1e-6


def test_the_timer_switches_the_positive_and_gives_what_the_lamp_takes():
    """The other lead of the lamp is on minus: an output to minus would leave it dark."""
    assert "lamp −" in wiring.JOINED[1][2]
    said = timer.timer("12 V dc", wiring.TAKEN_A["timer"])
    assert "(pnp, sourcing), at least 20 mA" in said
    assert wiring.TAKEN_A["lamp"] <= timer.OUTPUT_A
    for block in ("R_TRIG", "RS", "TP"):
        assert block in said


@pytest.mark.parametrize("kind", VARIANTS)
def test_wire_reaches_sensor_and_lamp_with_the_backboard_aside(kind):
    """Along the edges: over, up and back; half a metre more for each way."""
    display, _, assembly = put_together(kind)
    assert display is not None
    box, lamp = assembly.part("wiring box"), assembly.part("lamp")
    sensor = next(part for part in built(kind).parts if part.name in ("light barrier", "lamp switch"))
    far = abs(sensor.x_m - box.x_m) + abs(sensor.y_m - box.y_m) + abs(sensor.z_from_m - box.z_to_m)
    far += abs(lamp.x_m - box.x_m) + abs(lamp.y_m - box.y_m) + 1.0
    assert far < sundries.wire_m(assembly) < far + 1.6
