"""The firing windows from the geometry of one blade and the delay of one round."""

from __future__ import annotations

import sympy as sp

from sim.derivation.steps import Derivation, Number, listed, put_in, step

CHORD, THICKNESS, HELIX, BULLET, RADIUS, MARGIN = sp.symbols("c s beta d r mu", positive=True)
SPIN, DELAY, BLADES, RELEASE, ARC, COUNT = sp.symbols("Omega t B alpha D k", positive=True)
NAMES = {
    CHORD: "blade_chord_m",
    THICKNESS: "blade_thickness_m",
    HELIX: "helix_rad",
    BULLET: "bullet_diameter_m",
    RADIUS: "bore_radius_m",
    MARGIN: "margin_rad",
    SPIN: "spin_rad_s",
    DELAY: "delay_s",
}


def derive_windows(
    *,
    blade_chord_m: float,
    blade_thickness_m: float,
    helix_rad: float,
    bullet_diameter_m: float,
    bore_radius_m: float,
    margin_rad: float,
    spin_rad_s: float,
    delay_s: float,
    blades: int,
) -> Derivation:
    """Derive blocked arc, lead and the first window of release; put numbers in.

    Parameters
    ----------
    blade_chord_m, blade_thickness_m : float
        Of the blade at the bore line. [m]
    helix_rad : float
        Of the blade there, from the plane of the disc. [rad]
    bullet_diameter_m : float
        [m]
    bore_radius_m : float
        Of the bore line from the shaft axis, at the disc. [m]
    margin_rad : float
        Kept clear on each side of a blade. [rad]
    spin_rad_s : float
        Of the propeller. [rad/s]
    delay_s : float
        From release to passage through the disc. [s]
    blades : int
        Evenly spaced.
    """
    width = CHORD * sp.cos(HELIX) + THICKNESS * sp.sin(HELIX)
    arc = 2 * sp.asin((width + BULLET) / (2 * RADIUS)) + 2 * MARGIN
    passing, lead = RELEASE + SPIN * DELAY, SPIN * DELAY
    opens, closes = ARC / 2 - lead, 2 * sp.pi / BLADES - ARC / 2 - lead
    values = {
        CHORD: blade_chord_m,
        THICKNESS: blade_thickness_m,
        HELIX: helix_rad,
        BULLET: bullet_diameter_m,
        RADIUS: bore_radius_m,
        MARGIN: margin_rad,
        SPIN: spin_rad_s,
        DELAY: delay_s,
        BLADES: blades,
    }
    w, between = sp.symbols("w lambda")
    return Derivation(
        title="When may a gun be released so that its round passes between the blades?",
        steps=(
            step(
                "Seen along the shaft a blade of chord c and thickness s, set at the angle β to the plane of the disc, "
                "has the width w.",
                sp.Eq(w, width, evaluate=False),
            ),
            step(
                "A round of diameter d, at the radius r, touches the blade while its centre is within half of w + d of "
                "the blade's. Seen from the shaft that is an arc; a margin μ is kept on each side.",
                sp.Eq(ARC, 2 * sp.asin((w + BULLET) / (2 * RADIUS)) + 2 * MARGIN, evaluate=False),
            ),
            step(
                "The round is released when blade 1 stands at α, and reaches the disc after the delay t. Meanwhile the "
                "propeller, at Ω, goes on by the lead λ.",
                sp.Eq(between, lead, evaluate=False),
                sp.Eq(sp.Symbol("alpha_disc"), passing, evaluate=False),
            ),
            step(
                "It passes clear when it finds the disc between blade 1 and the next of B blades, both arcs kept free.",
                sp.Lt(ARC / 2, passing, evaluate=False),
                sp.Lt(passing, 2 * sp.pi / BLADES - ARC / 2, evaluate=False),
            ),
            step(
                "Take the lead from all three: the window of release. It comes again with every blade, k = 0, 1, …; "
                "the faster the propeller turns, the earlier the gun must be released.",
                sp.Lt(opens + 2 * sp.pi * COUNT / BLADES, RELEASE, evaluate=False),
                sp.Lt(RELEASE, closes + 2 * sp.pi * COUNT / BLADES, evaluate=False),
            ),
            step(
                "What is left open between two blades does not depend on the speed; the time it lasts does.",
                sp.Eq(sp.Symbol("open"), closes - opens, evaluate=False),
            ),
        ),
        numbers=listed(values, NAMES),
        results=tuple(
            Number(symbol, name, put_in(formula.subs(ARC, arc) * 180 / sp.pi, values))
            for symbol, name, formula in (
                ("D", "blocked_deg", ARC),
                ("lambda", "lead_deg", lead),
                ("alpha_1", "from_deg", sp.Mod(opens, 2 * sp.pi / BLADES)),
                ("open", "open_deg", closes - opens),
            )
        ),
    )
