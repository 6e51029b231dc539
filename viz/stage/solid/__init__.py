"""The airplane as a solid of some two thousand faces, and how it is lit and seen."""
