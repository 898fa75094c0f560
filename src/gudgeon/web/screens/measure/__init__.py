"""The bench: one reading asked at a time."""
