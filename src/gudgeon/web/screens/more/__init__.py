"""Books, shelf, rules."""
