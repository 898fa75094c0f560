"""Bytes to entries and back: archives, CSV, spreadsheets. Nothing here judges."""
