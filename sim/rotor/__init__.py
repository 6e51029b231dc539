"""The spinning parts: what they weigh, how they turn and what couple they make."""
