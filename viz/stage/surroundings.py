"""What the window library is told before it loads."""

from __future__ import annotations

import os


def prepare() -> None:
    """Ask for a plain window surface, as anything else is copied twice without a graphics chip, and for no greeting."""
    os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
