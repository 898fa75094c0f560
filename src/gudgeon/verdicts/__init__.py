"""From readings to verdicts: how well a value is known, what it means against the book, and what would settle it."""
