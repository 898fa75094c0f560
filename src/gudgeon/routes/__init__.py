"""The default hold points and scopes of a top-end job, as data."""
