"""The inert display: a cam, a roller follower and a lamp that show when a gun could have fired."""
