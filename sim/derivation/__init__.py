"""The equations derived again from first principles, step by step, for a teacher to hand out and for the tests."""
