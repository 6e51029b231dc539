"""Scenes: each turns a snapshot into shapes, as data, and draws nothing itself."""
