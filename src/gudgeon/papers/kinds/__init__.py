"""One kind of paper a file."""
