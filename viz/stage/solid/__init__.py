"""The airplane as a solid of some thousand faces, and how it is lit and seen."""
