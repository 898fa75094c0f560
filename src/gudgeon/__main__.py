"""``python -m gudgeon`` and the installed ``gudgeon``."""

import gc
import sys


def main() -> int:
    """The exit code of the command that was typed.

    The collector runs seldom, and not at all over what is left at exit: a short answer makes no garbage worth the wait.
    """
    gc.set_threshold(50_000)
    from gudgeon.cli.main import main as run

    code = run()
    gc.freeze()
    return code


if __name__ == "__main__":
    sys.exit(main())
