"""One measurand a file."""
