"""Files written whole or not at all: figures, tables, journals, keys of a scenario."""
