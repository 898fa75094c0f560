"""Taking an engine in."""
