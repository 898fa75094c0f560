"""What can be measured: one kind a file, one line in the catalogue."""
