"""What is judged: one kind a file, one line in the catalogue."""
