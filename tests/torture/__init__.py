"""Randomly worn engines, each worked by a technician who does what the bench says."""
