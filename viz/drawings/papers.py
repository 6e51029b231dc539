"""Papers that drawings are printed on."""

from __future__ import annotations

PAPERS: dict[str, tuple[float, float]] = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
}
"""Name of a paper -> its short and its long side. [mm]"""
