"""Physics of a spinning rotor in an airplane and of a gun timed between propeller blades: numbers in, results out."""

__version__ = "0.1.0"
