"""Something of our own to measure, to do or to check, in one job."""
