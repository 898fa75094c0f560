"""From words to a command: one registry, one place where what is refused is said, exit codes 0, 1 (refused), 2 (usage)."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module
from io import TextIOWrapper

from gudgeon.cli.catalogue import COMMANDS
from gudgeon.problem import Problem, Refused


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command that the words name; without words, start the bench and open it."""
    _speak_utf8()
    words = list(sys.argv[1:] if argv is None else argv)
    if words[:1] in (["-h"], ["--help"], ["help"]):
        print(overview())
        return 0
    if words == ["--version"]:
        from importlib.metadata import version

        print(f"gudgeon {version('gudgeon')}")
        return 0
    if not words or words[0].startswith("-"):
        words = ["serve", "--open", *words]
    modules = {verb: module for verb, _, module in COMMANDS}
    if words[0] not in modules:
        return _unknown(words[0], list(modules))
    return _run(words[0], modules[words[0]], words[1:])


def _speak_utf8() -> None:
    """Figures carry signs (µ, °, −) that an old terminal's own encoding cannot write."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper) and stream.encoding.lower() not in ("utf-8", "utf8"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def overview() -> str:
    """All verbs, one line each."""
    wide = max(len(verb) for verb, _, _ in COMMANDS)
    lines = [f"  {verb:<{wide}}  {line}" for verb, line, _ in COMMANDS]
    start = "usage: gudgeon [COMMAND …]\n\nWithout a command: start the bench and open it in the browser.\n\ncommands:"
    return "\n".join([start, *lines, "", "gudgeon COMMAND --help says more about one."])


def _run(verb: str, module: str, words: list[str]) -> int:
    command = import_module(module)
    line = next(line for name, line, _ in COMMANDS if name == verb)
    parser = argparse.ArgumentParser(
        prog=f"gudgeon {verb}",
        description=command.__doc__ or line,
        conflict_handler="resolve",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    command.add_arguments(parser)
    args = parser.parse_args(command.arrange(words) if hasattr(command, "arrange") else words)
    try:
        code = int(command.run(args))
        sys.stdout.flush()
        return code
    except Refused as refused:
        _say(refused.problems, as_json=bool(getattr(args, "json", False)))
        return 1
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        _silence()
        return 0


class _Help(argparse.RawDescriptionHelpFormatter):
    """Help of a fixed width: asking the terminal for its own would load what no answer needs."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=100)


def _say(problems: tuple[Problem, ...], *, as_json: bool) -> None:
    if as_json:
        import json

        rows = [{"where": p.where, "what": str(p.what), "remedy": str(p.remedy)} for p in problems]
        print(json.dumps({"problems": rows}, ensure_ascii=False))
        return
    for problem in problems:
        print(problem, file=sys.stderr)


def _unknown(word: str, verbs: list[str]) -> int:
    from difflib import get_close_matches

    close = get_close_matches(word, verbs, n=1, cutoff=0.5)
    meant = f" Did you mean {close[0]}?" if close else ""
    print(f"gudgeon: there is no command {word!r}.{meant}\nThe commands are: {', '.join(verbs)}.", file=sys.stderr)
    return 2


def _silence() -> None:
    """The reader of our output went away: leave quietly instead of failing once more at exit."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
