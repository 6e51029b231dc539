"""Words for readers: one catalogue a language in the form of gettext, and numbers as the language writes them."""
