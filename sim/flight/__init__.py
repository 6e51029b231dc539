"""How the airplane moves: forces, the right-hand side, and what is asked of them."""
