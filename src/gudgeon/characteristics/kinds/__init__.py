"""One characteristic a file."""
