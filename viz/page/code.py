"""The code that a phone reads: an address as squares."""

from __future__ import annotations

import io
from typing import Final

QUIET: Final = 4
"""Width of the empty border in squares (ISO/IEC 18004)."""
SQUARE_MM: Final = 1.0
"""Size of a square where nothing scales the drawing: a code of 33 squares is read from some 40 cm. [mm]"""


def code(address: str) -> bytes:
    """Return an address as a QR code, SVG with a white ground, in which a quarter of the squares may be spoilt."""
    import segno

    out = io.BytesIO()
    segno.make_qr(address, error="q").save(
        out, kind="svg", border=QUIET, scale=SQUARE_MM, unit="mm", light="white", title=address
    )
    return out.getvalue()
