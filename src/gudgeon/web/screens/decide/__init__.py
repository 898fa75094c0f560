"""Decisions: what becomes of parts, what is ordered, sent out and approved."""
