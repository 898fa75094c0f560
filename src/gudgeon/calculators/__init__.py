"""The bench calculators: typed text in, figures with method, source, validity and notes out; one calculator a file."""
