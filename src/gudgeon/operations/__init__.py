"""What can be done to an engine: one kind a file, one line in the catalogue."""
