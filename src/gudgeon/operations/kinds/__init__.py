"""One operation a file."""
