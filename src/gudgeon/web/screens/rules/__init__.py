"""How the workshop decides, on one page."""
