"""When a gun may fire between turning propeller blades, how often it then does, and what spoils it.

This explains history and times an inert display; it sizes no part of a gun.
"""
