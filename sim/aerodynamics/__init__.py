"""The forces and moments of the air: lifting surfaces, body, derivatives and their bands."""
