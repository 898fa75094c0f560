"""Gudgeon: the bench companion of a technician who overhauls the top end of small piston engines."""
