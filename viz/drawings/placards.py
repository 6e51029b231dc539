"""The placard beside the display in three languages, for visitors: what they see, what to do, and that it is inert."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit, ShownTiming


@dataclass(frozen=True, slots=True)
class Words:
    """A placard in one language.

    Attributes
    ----------
    language : str
        Its ISO 639-1 code.
    title, crank, motor, lamp, part, impulse, meets, lead, inert : str
        Title; what to do at a crank, or with a motor; what the lamp shows where the cam opens for the whole clear arc,
        for a part of it, or gives an impulse, or where rounds may meet a blade; what the lead plate shows; that nothing
        here can fire.
    """

    language: str
    title: str
    crank: str
    motor: str
    lamp: str
    part: str
    impulse: str
    meets: str
    lead: str
    inert: str


WORDS = (
    Words(
        "en",
        "How could a gun fire between turning blades?",
        "Turn the crank anticlockwise, as its arrow shows.",
        "Watch the propeller turn.",
        "The lamp stands where the gun would have been. While a blade is in the way, it is dark. When the way is "
        "clear, the cam lifts the roller and the lamp lights: now a round could pass.",
        "The lamp stands where the gun would have been. While a blade is in the way, it is dark. For a part of the "
        "time "
        "when the way is clear, the cam lifts the roller and the lamp lights: then a round could pass.",
        "The lamp stands where the gun would have been. The gun's cam gave one short push in each gap between blades. "
        "The lamp is lit as long as that push could come early or late and the round still pass.",
        "The lamp stands where the gun would have been. It lights when the cam lifts the roller. Watch the blades: at "
        "full speed of this engine a round could meet one.",
        "A round takes time on its way, and the propeller turns on: {lead} at full speed. Swing the knob to {lead}: "
        "the lamp now lights early, when the round has to start.",
        "Inert display: nothing here can fire. There is no gun in it, only a lamp.",
    ),
    Words(
        "fr",
        "Comment tirer entre les pales d'une hélice qui tourne ?",
        "Tournez la manivelle dans le sens inverse des aiguilles d'une montre, comme le montre sa flèche.",
        "Regardez tourner l'hélice.",
        "La lampe est à la place de la mitrailleuse. Tant qu'une pale barre le passage, elle reste éteinte. Quand le "
        "passage est libre, la came lève le galet et la lampe s'allume : une balle pourrait passer.",
        "La lampe est à la place de la mitrailleuse. Tant qu'une pale barre le passage, elle reste éteinte. Pendant "
        "une "
        "partie du temps où le passage est libre, la came lève le galet et la lampe s'allume : une balle pourrait "
        "alors "
        "passer.",
        "La lampe est à la place de la mitrailleuse. La came de l'arme donnait une brève impulsion entre deux pales. "
        "La "
        "lampe reste allumée tant que cette impulsion pourrait venir plus tôt ou plus tard sans que la balle touche "
        "une "
        "pale.",
        "La lampe est à la place de la mitrailleuse. Elle s'allume quand la came lève le galet. Regardez les pales : à "
        "plein régime de ce moteur, une balle pourrait en toucher une.",
        "La balle met du temps à arriver, et l'hélice continue de tourner : de {lead} à plein régime. Amenez le "
        "bouton à {lead} : la lampe s'allume plus tôt, au moment où la balle doit partir.",
        "Maquette inerte : rien ici ne peut tirer. Il n'y a pas d'arme, seulement une lampe.",
    ),
    Words(
        "de",
        "Wie schoss man zwischen laufenden Propellerblättern hindurch?",
        "Drehen Sie die Kurbel gegen den Uhrzeigersinn, wie ihr Pfeil zeigt.",
        "Sehen Sie zu, wie sich der Propeller dreht.",
        "Die Lampe sitzt dort, wo das Maschinengewehr saß. Solange ein Blatt im Weg steht, bleibt sie dunkel. Ist der "
        "Weg frei, hebt der Nocken die Rolle, und die Lampe leuchtet: Jetzt käme ein Geschoss hindurch.",
        "Die Lampe sitzt dort, wo das Maschinengewehr saß. Solange ein Blatt im Weg steht, bleibt sie dunkel. Während "
        "eines Teils der Zeit, in der der Weg frei ist, hebt der Nocken die Rolle, und die Lampe leuchtet: Dann käme "
        "ein Geschoss hindurch.",
        "Die Lampe sitzt dort, wo das Maschinengewehr saß. Dessen Nocken gab in jeder Lücke zwischen den Blättern "
        "einen "
        "kurzen Anstoß. Die Lampe leuchtet, solange dieser Anstoß früher oder später kommen könnte, ohne dass das "
        "Geschoss ein Blatt träfe.",
        "Die Lampe sitzt dort, wo das Maschinengewehr saß. Sie leuchtet, wenn der Nocken die Rolle hebt. Achten Sie "
        "auf die Blätter: Bei voller Drehzahl dieses Motors könnte ein Geschoss eines treffen.",
        "Das Geschoss braucht Zeit, und der Propeller dreht sich weiter: um {lead} bei voller Drehzahl. Stellen Sie "
        "den Knopf auf {lead}: Die Lampe leuchtet nun früher, dann, wenn das Geschoss starten muss.",
        "Funktionslose Nachbildung: Hier kann nichts schießen. Es ist keine Waffe darin, nur eine Lampe.",
    ),
)


def placards(exhibit: Exhibit) -> tuple[tuple[Words, tuple[str, ...]], ...]:
    """Return the words of each language, and its paragraphs for a display."""
    lead = text_of(Value("lead_rad", exhibit.display.window.lead_rad, decimals=0), "si")
    return tuple((words, tuple(each.format(lead=lead) for each in _paragraphs(words, exhibit))) for words in WORDS)


def _paragraphs(words: Words, exhibit: Exhibit) -> tuple[str, ...]:
    start = words.crank if exhibit.display.handle.kind == "crank" else words.motor
    return start, lamp_words(words, exhibit.shown), words.lead, words.inert


def lamp_words(words: Words, timing: ShownTiming) -> str:
    """Return what the lamp shows: whether rounds may meet a blade counts before how the cam opens."""
    if timing.clearance_deg < 0.0:
        return words.meets
    if timing.impulses:
        return words.impulse
    return words.lamp if timing.cam.ideal else words.part
