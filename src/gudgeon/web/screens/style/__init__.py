"""Every element on one sheet."""
