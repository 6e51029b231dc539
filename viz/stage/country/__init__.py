"""The country below: fields, hedges, river and road as one picture that repeats, seen row by row; and the sky."""
