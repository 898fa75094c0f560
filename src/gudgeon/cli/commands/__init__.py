"""One verb a file, each with ``add_arguments(parser)`` and ``run(args) -> int``; its line stands in ``cli/catalogue.py``."""
