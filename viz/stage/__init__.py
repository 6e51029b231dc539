"""The viewer: clock, session, snapshot, scenes, painter, window; pygame in the painter and the window alone."""
