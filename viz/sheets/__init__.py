"""Sheets as data, one a command, and their writers."""
