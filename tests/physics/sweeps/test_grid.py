"""A sweep is so many single runs: in any order, by any number of workers, here or on a cluster."""

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.compare import compare
from sim.studies.handling import handling
from sim.studies.rotor_effect import rotor_effect
from sim.sweeps.grid import question_of, sweep, swept
from sim.sweeps.parameters import setting, varied
from sim.sweeps.registry import STUDIES
from sim.sweeps.runner import Job, Outcome, evaluate, signature
from sim.sweeps.workers import Workers
from sim.units.quantities import kinds
from sim.units.registry import COMMON

STALL = "speeds.powerplants.rotary.stall_m_s"
LEFT = "summary.first.left_rudder_share"
VARY = ("wing.span=26ft:30ft:3", "flight.speed=43mph,80mph")


@pytest.fixture(scope="module")
def alone():
    return sweep(BIPLANE, vary=VARY, collect=[STALL, LEFT])


def refused(**question) -> list[str]:
    with pytest.raises(InputError) as error:
        sweep(BIPLANE, **{"vary": ["wing.span=26ft"], "collect": [STALL], **question})
    return str(error.value).splitlines()


@pytest.mark.slow
def test_a_row_is_a_single_run():
    spans = ["26 ft", "27 ft 4 in", "28 ft 8 in", "30 ft"]
    keys = [
        "handling.powerplants.rotary.turns.1.rudder_deg",
        "compare.powerplants.rotary.turns.1.effect",
        "handling.powerplants.rotary.steepest_left_deg",
    ]
    found = sweep(BIPLANE, vary=["wing.span=26ft:30ft:4"], collect=keys)
    for row, span in zip(found.rows, spans, strict=True):
        asked = model(BIPLANE, [f"wing.span={span}"])
        one, turn = handling(asked).powerplants["rotary"], compare(asked).powerplants["rotary"].turns[0]
        assert row.results[1] == turn.effect
        numbers = (row.results[0], row.results[2])
        assert numbers == pytest.approx((one.turns[0].rudder_deg, one.steepest_left_deg), rel=1e-12, abs=0.0)


def test_the_last_key_changes_fastest(alone):
    assert [row.settings for row in alone.rows] == [
        (span, speed) for span in (7.9248, 8.5344, 9.144) for speed in (19.22272, 35.7632)
    ]


def test_a_point_without_an_answer_is_a_row_with_its_reason(alone):
    slow = alone.rows[0]
    assert slow.results == (pytest.approx(18.2563, abs=1e-4), None)
    assert slow.reason == (
        "summary: rotary: no steady turn with 45° of left bank at 19.22 m/s (43 mph) within CLmax; "
        "fly faster, at 19.6 m/s (43.9 mph) or more, or bank 43° or less"
    )
    assert all(not row.reason for row in alone.rows if row.settings[1] > 30.0)


@pytest.mark.slow
def test_two_workers_give_the_same_table(alone):
    assert sweep(BIPLANE, vary=VARY, collect=[STALL, LEFT], workers=2) == alone


def test_the_order_does_not_matter(alone):
    turned = sweep(BIPLANE, vary=["flight.speed=80mph,43mph", "wing.span=30ft:26ft:3"], collect=[LEFT, STALL])
    mine = {(row.settings[1], row.settings[0]): row.results[::-1] for row in turned.rows}
    assert mine == {row.settings: row.results for row in alone.rows}


@pytest.mark.slow
def test_a_cluster_of_two_workers_gives_the_same_table(alone):
    distributed = pytest.importorskip("distributed")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, host="127.0.0.1", dashboard_address=None, silence_logs=50
    ) as cluster:
        assert sweep(BIPLANE, vary=VARY, collect=[STALL, LEFT], cluster=cluster.scheduler_address) == alone


def test_a_cluster_that_does_not_answer_is_refused(monkeypatch):
    pytest.importorskip("distributed")
    monkeypatch.setattr("sim.sweeps.cluster.PATIENCE_S", 1.0)
    assert refused(cluster="tcp://127.0.0.1:9") == [
        'cluster: must be the address of a Dask scheduler that answers, got "tcp://127.0.0.1:9"'
    ]


class Memory:
    """Keeps outcomes, and stops the work after so many."""

    def __init__(self, most=10**9):
        self.kept, self.most, self.asked = {}, most, 0

    def known(self, key):
        return self.kept.get(key)

    def keep(self, key, outcome):
        if len(self.kept) == self.most:
            raise KeyboardInterrupt
        self.asked += 1
        self.kept[key] = outcome


def test_what_is_kept_is_not_asked_again(alone):
    question, memory = question_of(BIPLANE, (), VARY, [STALL, LEFT]), Memory(most=4)
    with pytest.raises(KeyboardInterrupt):
        swept(question, workers=Workers(), journal=memory)
    memory.most, memory.asked = 10**9, 0
    assert swept(question, workers=Workers(), journal=memory) == alone
    assert memory.asked == 2


@pytest.fixture(scope="module")
def remembered():
    """Return what is kept of one question."""
    memory = Memory()
    swept(question_of(BIPLANE, ("wing.chord=4 ft",), VARY[:1], [STALL, LEFT]), workers=Workers(), journal=memory)
    assert len(memory.kept) == 3
    return memory.kept


@pytest.mark.parametrize("settings", [(), ("flight.altitude=5000 ft",)])
@pytest.mark.parametrize("collected", [[STALL], [LEFT]])
def test_another_question_takes_nothing_from_it(remembered, settings, collected):
    memory = Memory()
    memory.kept.update(remembered)
    swept(question_of(BIPLANE, settings, VARY[:1], collected), workers=Workers(), journal=memory)
    assert memory.asked == 3


def test_a_mistake_of_ours_at_one_point_does_not_lose_the_others(monkeypatch):
    def wrong(scenario):
        message = "no\nsuch luck"
        raise ZeroDivisionError(message)

    monkeypatch.setitem(STUDIES, "summary", wrong)
    text = BIPLANE.read_text(encoding="utf-8")
    outcome = evaluate(Job(text, "biplane", (), (STALL, LEFT)), ())
    assert outcome.values == (pytest.approx(17.566, abs=1e-3), None)
    assert outcome.reason == "summary: cannot be computed here (ZeroDivisionError: no; such luck)"


def test_a_point_that_the_reader_refuses_is_a_reason():
    text = BIPLANE.read_text(encoding="utf-8")
    outcome = evaluate(Job(text, "biplane", (), (STALL,)), ("wing.span=0 m",))
    assert outcome == Outcome((None,), 'set wing.span: must be above 0 and at most 100 m, got "0 m"')


def test_a_signature_changes_with_what_matters_alone():
    text = BIPLANE.read_text(encoding="utf-8")
    job = Job(text, "biplane", (), (STALL,))
    plain = signature(job, ())
    assert signature(job, ("airplane.mass=1401 lb",)) != plain == signature(job, ("gun.margin=4 °",))


@pytest.mark.parametrize("unit", [unit for unit in kinds() if unit in COMMON and COMMON[unit].factor == 1])
def test_a_setting_is_read_back_to_the_last_digit(unit):
    from sim.units.parsing import Allowed, read

    value = 0.1 + 0.2
    text = setting("any.key", value, unit, 1e-7).partition("=")[2]
    found = read(text, Allowed(unit), key="")
    assert (found.value, found.tolerance) == (value, 1e-7)


@pytest.mark.parametrize(
    ("text", "settings"),
    [
        ("wing.span=26ft:30ft:3", ("wing.span=7.9248 m", "wing.span=8.5344 m", "wing.span=9.144 m")),
        ("gun.action=interrupter, impulse", ("gun.action=interrupter", "gun.action=impulse")),
        (
            "powerplant.rotary.propeller.blades=2:4:3",
            tuple(f"powerplant.rotary.propeller.blades={n}" for n in (2, 3, 4)),
        ),
        ("item.pilot.mass=80kg", ("item.pilot.mass=80.0 kg",)),
        ("past.2.group.tail=12kg,13kg", ("past.2.group.tail=12.0 kg", "past.2.group.tail=13.0 kg")),
        ("drag.zero_lift=0.04,0.05", ("drag.zero_lift=0.04", "drag.zero_lift=0.05")),
    ],
)
def test_what_is_varied(text, settings):
    assert varied(load(BIPLANE), text).settings == settings


@pytest.mark.parametrize(
    ("vary", "sentence"),
    [
        ("wing.span", 'vary: must be KEY=FROM:TO:COUNT or KEY=A,B,C, got "wing.span"'),
        (
            "wing.spam=1m",
            'vary wing.spam: must be a key of the scenario: there is no "spam" in wing; did you mean span?',
        ),
        ("wig.span=1m", 'vary wig.span: must be a key of the scenario: there is no "wig"; did you mean wing?'),
        ("wing.span=26:30ft:3", 'vary wing.span: must have a unit, as in "28 ft 1 in", got "26"'),
        ("wing.span=26ft:30ft:2.5", 'vary wing.span: COUNT: must be a whole number, got "2.5"'),
        ("wing.span=26ft:30ft:1", 'vary wing.span: COUNT: must be 2 to 100000, got "1"'),
        ("wing.span=26ft,-1ft", 'vary wing.span: must be above 0 and at most 328.08 ft, got "-1ft"'),
        ("wing.planes=1:2:3", 'vary wing.planes: must come out in whole numbers, got "1:2:3"'),
        ("gun.impulses_per_rev=1,13", 'vary gun.impulses_per_rev: must be above 0 and at most 12, got "13"'),
        ("gun.action=a:b:3", 'vary gun.action: must be a list of words, as in A,B,C, got "a:b:3"'),
        (
            "gun.action=impulse,interupter",
            'vary gun.action: must be interrupter or impulse, got "interupter"; did you mean interrupter?',
        ),
        ("flight=1", 'vary flight: must lead to a single value, got "flight", which holds speed, altitude, air'),
    ],
)
def test_a_wrong_key_or_value_is_refused(vary, sentence):
    assert refused(vary=[vary]) == [sentence]


@pytest.mark.parametrize(
    ("key", "sentence"),
    [
        (
            "speds.x",
            (
                "must begin with a study, compare, handling, summary, modes, derivatives, drag, speeds, field, "
                "autorotation, propeller, layout, drawing, balance, mount, structure, "
                'windows, rate, safe_range, burst, link, cooling, exhibit, maneuver, got "speds"; did you mean speeds?'
            ),
        ),
        (
            "maneuver.pul.x",
            (
                "must name a manoeuvre after maneuver, rudder-kick, pull, roll-in, turn, reversal, blip, slam, "
                'take-off, spin-entry, got "pul"; did you mean pull?'
            ),
        ),
        (
            "summary.frst",
            (
                "must name something in the answer, which holds speed_m_s, first, second, doubling, changes, "
                'conclusions, got "frst"; '
                "did you mean first?"
            ),
        ),
        (
            "summary.first",
            (
                'must lead to a single value, got "first", which holds powerplant, left_rudder_share, '
                "left_elevator_share, "
                "right_rudder_share, right_elevator_share, "
                + ", ".join(
                    f"{side}_{control}_share_{end}"
                    for side in ("left", "right")
                    for control in ("rudder", "elevator")
                    for end in ("low", "high")
                )
            ),
        ),
        ("summary.speed_m_s.x", 'must end at "speed_m_s", which holds nothing further, got "x" after it'),
        (
            "windows.rows.9.rpm",
            'must name something in "rows", which holds 1, 2, 3, 4, 5, 6, got "9"',
        ),
    ],
)
def test_a_wrong_result_is_refused(key, sentence):
    assert refused(collect=[key]) == [f"collect {key}: {sentence}"]


def test_every_fault_comes_at_once():
    assert refused(vary=["wing.spam=1m", "wing.span=1m", "wing.span=2m"], collect=["summary.x", STALL, STALL]) == [
        'vary wing.spam: must be a key of the scenario: there is no "spam" in wing; did you mean span?',
        "vary wing.span: is given twice",
        (
            "collect summary.x: must name something in the answer, which holds speed_m_s, first, second, doubling, "
            'changes, conclusions, got "x"'
        ),
        f"collect {STALL}: is given twice",
    ]


def test_nothing_asked_is_refused():
    assert refused(vary=[], collect=[]) == [
        "vary: is missing: at least one key of the scenario, as in wing.span=26ft:30ft:9",
        "collect: is missing: at least one value of a study, as in handling.powerplants.rotary.steepest_left_deg",
    ]


def test_too_many_points_are_refused():
    assert refused(vary=["wing.span=26ft:30ft:2000", "flight.speed=60mph:90mph:2000"]) == [
        'vary: must come to at most 1000000 combinations, got "4000000"'
    ]


def test_an_item_of_a_list_goes_by_number_or_name():
    found = sweep(BIPLANE, vary=["wing.span=28 ft 1 in"], collect=["modes.flights.1.powerplant", LEFT])
    assert found.rows[0].results == ("rotary", rotor_effect(model(BIPLANE)).first.left_rudder_share)
