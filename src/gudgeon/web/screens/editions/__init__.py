"""The edition of its book that a job is judged by."""
