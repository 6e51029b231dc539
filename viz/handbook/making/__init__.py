"""Makes the handbook's pages: those written by hand, every command, key and function, and what commands answer."""
