"""One calculator a file, each with a ``KIND``; its line stands in ``catalogue.py``."""
