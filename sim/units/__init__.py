"""Units and quantities: one table of names, and the reading of what a user writes."""
