"""The airframe: its geometry, masses and what the air does to it."""
