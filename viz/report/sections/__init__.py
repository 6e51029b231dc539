"""The sections of the report: a part is a small function from findings to blocks."""
