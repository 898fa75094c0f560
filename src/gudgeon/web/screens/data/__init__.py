"""Files that come in: what a gauge collected, and another workshop's job."""
