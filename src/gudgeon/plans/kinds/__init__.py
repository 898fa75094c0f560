"""One planner a file."""
