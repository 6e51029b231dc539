"""What the viewer advances frame by frame."""
