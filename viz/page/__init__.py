"""A page of one file for a visitor's phone, a table and a wall: three scenes, computed in the browser."""
