"""Rotating parts: inertia, kinematics and gyroscopic couple."""
