"""What a user may write in a scenario file, and reading it with every fault at once."""
