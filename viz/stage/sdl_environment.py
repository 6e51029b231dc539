"""What the window library is told before it loads."""

from __future__ import annotations

import os


def prepare() -> None:
    """Ask for a plain window surface, no greeting, and no handling of signals.

    Without a graphics chip any other surface is copied twice. A signal to end would come as a press on the window's
    close button, which a kiosk lets pass: whoever runs the machine must be able to end it.
    """
    os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    os.environ.setdefault("SDL_NO_SIGNAL_HANDLERS", "1")
