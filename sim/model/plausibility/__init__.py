"""What a careful designer would ask of input that is allowed: one file a subject, the limits in one table."""
