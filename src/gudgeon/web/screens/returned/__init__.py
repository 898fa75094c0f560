"""A machining order that came back."""
