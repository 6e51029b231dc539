"""Numbers: a function recorded once and replayed, ordinary differential equations, systems of equations."""
