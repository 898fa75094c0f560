"""Gauges, wrenches, shims and what is left over, each changed where it stands."""
