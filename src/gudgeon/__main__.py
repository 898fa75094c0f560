"""``python -m gudgeon`` and the installed ``gudgeon``."""

import sys


def main() -> int:
    """The exit code of the command that was typed."""
    from gudgeon.cli.main import main as run

    return run()


if __name__ == "__main__":
    sys.exit(main())
