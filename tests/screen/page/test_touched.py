"""The page as a visitor has it: touched, turned, resized, without a network, by keyboard, in three languages."""

import json
import re
from random import Random

import pytest
from browsers import CHROMIUM
from chromium_pipe import Tab

from viz.words.catalogue import languages, locale, words

pytestmark = [pytest.mark.skipif(CHROMIUM is None, reason="needs Chromium"), pytest.mark.slow]

SCENES = ("turning", "engine", "blades")
SIZES = [(390, 844), (360, 640), (844, 390), (1024, 768), (1920, 1080)]
CHOOSE = "(node => { node.value = '%s'; node.dispatchEvent(new Event('change')); })(find('language'))"
FRAME = "new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))"
PICTURE = "canvas.toDataURL()"
CLIPPED = """[...document.querySelectorAll('button, p, label, span, select')].filter(node => {
  const box = node.getBoundingClientRect(), within = node.clientWidth;
  return box.width && (box.left < -0.5 || box.right > innerWidth + 0.5 || within && node.scrollWidth > within + 1);
}).map(node => node.id || node.textContent)"""
"""What stands beyond the edges of the window, or is wider than what holds it."""


def bank_deg(tab):
    return tab.ask("scenes.turning.pair.both[0].seen[0] * 180 / Math.PI")


def test_a_finger_banks_both_and_they_level_when_it_is_gone(tab):
    x, y = tab.middle("#picture")
    tab.touch("Start", x, y)
    tab.touch("Move", x + 120, y)
    tab.rest(3.0)
    assert bank_deg(tab) > 25.0
    assert tab.ask("scenes.turning.pair.both[1].seen[0] * 180 / Math.PI") > 25.0
    assert tab.ask("document.getElementById('rotary-push').textContent") == words("english")["turning.nose_down"]
    tab.touch("Move", x - 120, y)
    tab.rest(4.0)
    assert bank_deg(tab) < -25.0
    tab.touch("End")
    tab.rest(5.0)
    assert abs(bank_deg(tab)) < 5.0


def test_hands_off_is_told_and_the_pilots_come_back(tab):
    tab.tap("#let-go")
    tab.rest(0.6)
    assert tab.ask("scenes.turning.pair.hand") == "nobody"
    assert tab.ask("document.getElementById('sentence').textContent") == words("english")["caption.nobody"]
    tab.rest(3.0)
    assert tab.ask("scenes.turning.pair.hand") in {"pilot", "recovery"}


def test_fire_is_held_and_the_switch_lets_rounds_meet_blades(tab):
    tab.tap("#to-blades")
    tab.touch("Start", *tab.middle("#fire"))
    tab.rest(1.5)
    assert tab.ask("scenes.blades.trigger") is True
    tab.touch("End")
    tab.rest(0.2)
    assert tab.ask("scenes.blades.trigger") is False
    count = "(gun => { gun.advance(60, true); return [gun.rounds, gun.strikes]; })(scenes.blades.gun)"
    rounds, strikes = tab.ask(count)
    assert rounds > 300
    assert strikes <= 2
    tab.tap("#gear")
    rounds, strikes = tab.ask(count)
    assert 0.04 < strikes / rounds < 0.25
    tab.rest(0.3)
    assert tab.ask("document.getElementById('rounds').textContent").endswith(str(rounds))


def test_what_slides_slows_the_engines(tab):
    tab.tap("#to-engine")
    told = tab.ask("document.getElementById('pace-told').textContent")
    tab.ask("document.getElementById('pace').focus()")
    tab.key("ArrowLeft")
    tab.rest(0.2)
    assert tab.ask("document.getElementById('pace-told').textContent") != told


def test_the_keyboard_alone_is_enough(tab):
    """Every control is reached by Tab, and seen to be; scenes, bank and FIRE answer."""
    reached = []
    for _ in range(12):
        tab.key("Tab")
        reached.append(tab.ask("document.activeElement.id"))
        if reached[-1]:
            assert tab.ask("getComputedStyle(document.activeElement).outlineStyle") != "none"
    assert {"to-turning", "to-engine", "to-blades", "language", "bank", "let-go", "run"} <= set(reached)
    tab.ask("document.getElementById('bank').focus()")
    for _ in range(8):
        tab.key("ArrowRight")
    tab.rest(3.0)
    assert bank_deg(tab) > 20.0
    tab.ask("document.getElementById('to-blades').focus()")
    tab.key("Enter")
    tab.ask("document.getElementById('fire').focus()")
    tab.key(" ", "Space", kinds=("keyDown",))
    tab.rest(0.3)
    assert tab.ask("scenes.blades.trigger") is True
    tab.key(" ", "Space", kinds=("keyUp",))
    assert tab.ask("scenes.blades.trigger") is False


def test_no_more_than_five_things_to_touch_but_the_scenes(tab):
    for scene in SCENES:
        tab.tap(f"#to-{scene}")
        seen = "[...document.querySelectorAll('button, select, input')].filter(node => node.offsetParent)"
        assert tab.ask(f"{seen}.filter(node => !node.closest('nav')).length") <= 4  # the picker of scenes is the fifth
        assert tab.ask(f"{seen}.filter(node => node.getBoundingClientRect().height < 40).length") == 0


@pytest.mark.parametrize("language", ["en-US", "fr-FR", "de-DE"])
def test_it_speaks_the_language_of_the_browser(written, tmp_path, language):
    tab = Tab(tmp_path / "profile", language)
    try:
        tab.open(written.as_uri())
        code = language[:2]
        name = next(each for each in languages() if str(locale(each)) == code)
        assert tab.ask("document.documentElement.lang") == code
        assert tab.ask("document.getElementById('let-go').textContent") == words(name)["button.let_go"]
        for other in languages():
            tab.ask(CHOOSE % other)
            assert tab.ask("document.title") == words(other)["page.title"]
            assert tab.ask("document.body.innerText.includes('undefined')") is False
    finally:
        tab.close()


@pytest.mark.parametrize(("wide", "high"), SIZES)
def test_nothing_is_clipped_at_any_size_in_any_language(browser, written, wide, high):
    browser.open(written.as_uri(), wide, high)
    for language in languages():
        browser.ask(CHOOSE % language)
        for scene in SCENES:
            browser.ask(f"show('{scene}')")
            browser.rest(0.15)
            assert browser.ask(CLIPPED) == [], (language, scene)
            assert browser.ask("document.documentElement.scrollWidth") <= wide
            assert browser.ask("[canvas.clientWidth, canvas.clientHeight].every(size => size >= 140)")
    assert browser.console == []


def test_turning_the_phone_and_resizing_draws_anew(tab):
    for wide, high in ((844, 390), (390, 844), (1024, 768), (390, 844)):
        tab.resize(wide, high)
        tab.ask(FRAME)
        tab.rest(0.2)
        ratio = tab.ask("canvas.width / canvas.clientWidth")
        assert ratio == pytest.approx(tab.ask("canvas.height / canvas.clientHeight"), rel=0.02)


def test_a_hidden_tab_stands_still_and_goes_on(tab):
    tab.rest(0.5)
    hide = """Object.defineProperty(document, 'hidden', { value: %s, configurable: true });
      document.dispatchEvent(new Event('visibilitychange')); scenes.turning.pair.steps"""
    begun = tab.ask(hide % "true")
    assert begun > 0
    tab.rest(0.2)
    still = tab.ask("scenes.turning.pair.steps")
    tab.rest(1.0)
    assert tab.ask("scenes.turning.pair.steps") == still
    tab.ask(hide % "false")
    tab.rest(0.7)
    gone = tab.ask("scenes.turning.pair.steps")
    assert 5 < gone - still < 120
    for _ in range(3):  # shown three times over, there is still one loop of frames
        tab.ask(hide % "true")
        tab.ask(hide % "false")
    count = "(() => { const own = draw; let drawn = 0, frames = 0; draw = () => { drawn++; own(); };"
    count += "const tick = done => ++frames < 30 ? requestAnimationFrame(() => tick(done)) : done([drawn, frames]);"
    drawn, frames = tab.ask(count + " return new Promise(tick); })()")
    assert 0.5 * frames < drawn < 1.5 * frames


def test_reduced_motion_stands_until_it_is_asked_to_go(browser, written):
    browser.open(written.as_uri(), motion="reduce")
    browser.rest(0.5)
    assert browser.ask("scenes.turning.pair.steps") == 0
    drawn = browser.ask(PICTURE)
    assert len(drawn) > 20_000
    browser.tap("#run")
    browser.rest(0.5)
    assert browser.ask("scenes.turning.pair.steps") > 10
    browser.tap("#run")
    browser.rest(0.2)
    still = browser.ask("scenes.turning.pair.steps")
    browser.rest(0.4)
    assert browser.ask("scenes.turning.pair.steps") == still


def test_it_needs_no_network_and_its_policy_forbids_one(tab, written):
    tab.call("Network.emulateNetworkConditions", offline=True, latency=0, downloadThroughput=0, uploadThroughput=0)
    tab.open(written.as_uri())
    tab.rest(0.5)
    assert tab.ask("scenes.turning.pair.steps") > 0
    assert tab.console == []
    refused = tab.ask("fetch('https://localhost:9/').then(() => 'went', () => 'refused')")
    assert refused == "refused"
    assert any("Content Security Policy" in line for line in tab.console)
    script = "Object.assign(document.createElement('script'), { textContent: 'window.slipped = 1' })"
    tab.ask(f"document.body.append({script})")
    assert tab.ask("window.slipped") is None
    tab.console.clear()
    tab.requests.clear()
    tab.call("Network.emulateNetworkConditions", offline=False, latency=0, downloadThroughput=-1, uploadThroughput=-1)


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("wide", [390, 1280])
def test_axe_finds_nothing(browser, written, axe, scene, wide):
    browser.open(written.as_uri(), wide, 844)
    browser.ask(f"show('{scene}'); run(false)")
    browser.ask(axe + ";0")
    rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    faults, passed = browser.ask(f"""axe.run(document, {{ runOnly: {json.dumps(rules)} }}).then(found => [
      found.violations.map(one => [one.id, one.nodes.slice(0, 3).map(node => node.html)]),
      found.passes.map(one => one.id)])""")
    assert faults == []
    assert {"html-has-lang", "document-title", "color-contrast", "button-name", "select-name"} <= set(passed)


def test_what_is_told_is_live_and_pictures_have_words(tab):
    assert tab.ask("document.getElementById('sentence').getAttribute('aria-live')") == "polite"
    for scene in SCENES:
        tab.tap(f"#to-{scene}")
        tab.rest(0.2)
        assert tab.ask("canvas.getAttribute('aria-label')") == words("english")[f"page.sees_{scene}"]
        assert len(tab.ask("document.getElementById('sentence').textContent")) > 20


def test_a_minute_of_random_touches_leaves_it_whole(tab):
    random = Random(5)
    heap = "performance.memory.usedJSHeapSize / 1e6"
    tab.rest(3.0)
    begun = tab.ask(heap)
    for _ in range(300):
        kind = random.random()
        x, y = random.uniform(2, 388), random.uniform(2, 842)
        tab.touch("Start", x, y)
        for _ in range(random.randrange(3)):
            tab.touch("Move", random.uniform(2, 388), random.uniform(2, 842))
        tab.rest(random.uniform(0.02, 0.3))
        tab.touch("End")
        if kind < 0.05:
            tab.resize(*random.choice([(844, 390), (390, 844)]))
    tab.resize(390, 844)
    tab.rest(1.0)
    assert tab.ask("scenes.turning.pair.both.every(one => one.state.every(Number.isFinite))")
    tab.call("HeapProfiler.collectGarbage")
    assert tab.ask(heap) < begun + 30.0


def test_it_is_small_and_every_word_is_used(written):
    text = written.read_text(encoding="utf-8")
    assert len(text.encode()) < 400_000
    assert not re.search(r"https?://", text)
    data = json.loads(re.search(r"const DATA=(\{.*?\});\n", text)[1])
    code = text[: text.index("<script>")] + text[text.index("const numbers =") :]
    whole = set(re.findall(r"""['"`]([a-z]+\.[a-z_]+)['"`]""", code)) | {data["ratio"]["key"], data["chances"]["key"]}
    begun = tuple(re.findall(r"`([a-z]+\.[a-z_]*)\$\{", code))
    chosen = ("caption.engine_", "blades.chances")  # one of each is said of an airplane
    assert len(whole) > 25
    assert [key for key in data["words"]["english"] if key not in whole and not key.startswith((*begun, *chosen))] == []
    tables = {key.partition(".")[0] for key in words("english")}
    assert {key for key in whole if key.partition(".")[0] in tables} <= set(data["words"]["english"])
