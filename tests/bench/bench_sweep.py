"""Points a second of a sweep with one worker and with two, beside the studies called one after the other."""

from side_by_side import say, seconds

from sim.model.model import model
from sim.studies.handling import handling
from sim.sweeps.grid import sweep

POINTS = 24
VARY = f"wing.span=26ft:30ft:{POINTS}"
COLLECT = ("handling.powerplants.rotary.steepest_left_deg",)


def by_hand() -> None:
    """Ask the same study of the same settings in a plain loop."""
    for point in range(POINTS):
        handling(model("tollgate", [f"wing.span={26.0 + 4.0 * point / (POINTS - 1)} ft"]))


def main() -> None:
    """Print throughputs, and how they compare."""
    plain, one, two = seconds(
        by_hand,
        lambda: sweep(vary=[VARY], collect=COLLECT),
        lambda: sweep(vary=[VARY], collect=COLLECT, workers=2),
    )
    for name, taken in (("a plain loop", plain), ("one worker", one), ("two workers", two)):
        print(f"{name}: {POINTS / taken:.1f} points/s")
    say("sweep with one worker against a plain loop", one / plain, 1.15)
    say("sweep with two workers against one", two / one, 0.7)


if __name__ == "__main__":
    main()
