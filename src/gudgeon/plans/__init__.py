"""From verdicts to what to do next: one planner a file, two roll-ups, and the hold points."""
