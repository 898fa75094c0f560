"""The words a technician types in a terminal."""
