"""A book typed, pasted, compared."""
