"""Worlds: what goes on in each scene, kept between two frames; the physics comes from the study, whole."""
