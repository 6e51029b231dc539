"""Everything a person sees: commands, tables, figures, reports, cutting files and the stage."""
