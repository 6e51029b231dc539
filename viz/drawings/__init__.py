"""Files to cut the display from, and its drawing sheet."""
