"""Who may come in over a network."""
