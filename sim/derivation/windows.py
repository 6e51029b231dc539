"""The firing windows from the geometry of one blade and the delay of one round."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy as sp

from sim.derivation.steps import Derivation, Number, equation, listed, put_in, step

if TYPE_CHECKING:
    from collections.abc import Mapping

CHORD, THICKNESS, HELIX, BULLET, RADIUS, MARGIN = sp.symbols("c s beta d r mu", positive=True)
SPIN, DELAY, BLADES, RELEASE, ARC, COUNT, WIDTH = sp.symbols("Omega t B alpha D k w", positive=True)
NAMES = {
    CHORD: "blade_chord_m",
    THICKNESS: "blade_thickness_m",
    HELIX: "helix_rad",
    BULLET: "bullet_diameter_m",
    RADIUS: "bore_radius_m",
    MARGIN: "margin_rad",
    SPIN: "spin_rad_s",
    DELAY: "delay_s",
    BLADES: "blades",
}

SEEN = CHORD * sp.cos(HELIX) + THICKNESS * sp.sin(HELIX)
BLOCKED = 2 * sp.asin((WIDTH + BULLET) / (2 * RADIUS)) + 2 * MARGIN
LEAD = SPIN * DELAY
BETWEEN = 2 * sp.pi / BLADES
OPENS, CLOSES = ARC / 2 - LEAD, BETWEEN - ARC / 2 - LEAD
PASSING = RELEASE + LEAD

STEPS = (
    step(
        "Seen along the shaft a blade of chord c and thickness s, set at the angle β to the plane of the disc, has the "
        "width w.",
        equation("w", SEEN),
    ),
    step(
        "A round of diameter d, at the radius r, touches the blade while its centre is within (w + d)/2 of the "
        "blade's. Seen from the shaft that is the arc D; it includes a margin μ on each side.",
        sp.Eq(ARC, BLOCKED, evaluate=False),
    ),
    step(
        "The round is released when blade 1 stands at α, and reaches the disc after the delay t. Meanwhile the "
        "propeller, at Ω, turns by the lead angle λ, and the blade stands at ε.",
        equation("lambda", LEAD),
        equation("epsilon", PASSING),
    ),
    step(
        "It passes clear when it crosses the disc between blade 1 and the next of B blades, outside both arcs.",
        sp.Lt(ARC / 2, PASSING, evaluate=False),
        sp.Lt(PASSING, BETWEEN - ARC / 2, evaluate=False),
    ),
    step(
        "Subtract the lead angle: this is the window of release, that of the ideal cam for this speed. It repeats with "
        "every blade, k = 0, 1, …; the faster the propeller turns, the earlier the gun must be released.",
        sp.Lt(OPENS + COUNT * BETWEEN, RELEASE, evaluate=False),
        sp.Lt(RELEASE, CLOSES + COUNT * BETWEEN, evaluate=False),
    ),
    step(
        "The open angle between two blades does not depend on the speed; its duration does.",
        equation("gamma", CLOSES - OPENS),
    ),
)


def derive_windows(given: Mapping[str, float]) -> Derivation:
    """Derive blocked arc, lead and the first window of release; insert numbers.

    Parameters
    ----------
    given : mapping of str to float
        A value for each name of `NAMES`: the blade's chord, thickness and helix angle at the bore line, the round's
        diameter, the radius there, the margin, the propeller's speed and blades, and the delay from release to disc.
    """
    values = {symbol: given[name] for symbol, name in NAMES.items()}
    whole = {ARC: BLOCKED.subs(WIDTH, SEEN)}
    outcomes = (
        ("D", "blocked_deg", ARC),
        ("lambda", "lead_deg", LEAD),
        ("alpha", "from_deg", sp.Mod(OPENS, BETWEEN)),
        ("gamma", "open_deg", CLOSES - OPENS),
    )
    return Derivation(
        title="When may a gun be released so that its round passes between the blades?",
        steps=STEPS,
        numbers=listed(values, NAMES),
        results=tuple(
            Number(symbol, name, put_in(formula.subs(whole) * 180 / sp.pi, values))
            for symbol, name, formula in outcomes
        ),
    )
