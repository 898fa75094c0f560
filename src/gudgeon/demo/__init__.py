"""A whole overhaul told as a bench would write it, so that a first look shows a real job. Everything in it is invented."""
