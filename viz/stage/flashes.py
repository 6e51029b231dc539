"""No more than three flashes a second: what may change all at once, how often, and how a fast blade is drawn.

WCAG 2.3.1 counts a flash as a pair of opposing changes of a tenth of full brightness or more. Three things could
make one here: a whole picture that is exchanged (another scene, contrast or help page), a value that jumps, and a
part that passes the same spot again and again. The first is rationed, the second eased, the third blurred.
"""

from __future__ import annotations

EXCHANGE_S = 0.41
"""Least time between two exchanges of the whole picture: two of them make a flash, so under 1.3 a second."""
FULL_TRAVEL_S = 0.5
"""Least time in which a shown value moves over its whole range."""
CLEAR_HZ = 2.0
"""Up to this many passages a second a moving part is drawn in full."""
BLUR_HZ = 3.0
"""From here on it is drawn as a blur too faint to count."""
BLUR_FADE = 0.90
"""How far a blurred part is taken towards the back colour."""


class Ration:
    """Lets one exchange through, then none for `EXCHANGE_S`."""

    def __init__(self, least_s: float = EXCHANGE_S) -> None:
        self._least_s = least_s
        self._free_at_s = 0.0

    def grant(self, now_s: float) -> bool:
        """Tell whether an exchange may happen at `now_s`, and count it if so."""
        if now_s < self._free_at_s:
            return False
        self._free_at_s = now_s + self._least_s
        return True


def eased(shown: float, wanted: float, elapsed_s: float) -> float:
    """Return the shown share 0..1 after `elapsed_s`, on its way to the wanted one without a jump."""
    reach = elapsed_s / FULL_TRAVEL_S
    return min(max(wanted, shown - reach), shown + reach)


def blur(passages_hz: float) -> float:
    """Return how far a part that passes `passages_hz` times a second is taken towards the back colour, 0 to 0.9.

    Examples
    --------
    >>> blur(1.0), blur(40.0)
    (0.0, 0.9)
    """
    share = (abs(passages_hz) - CLEAR_HZ) / (BLUR_HZ - CLEAR_HZ)
    return BLUR_FADE * min(max(share, 0.0), 1.0)
