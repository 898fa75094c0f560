"""Write the catalogues of the screens anew: what is said in templates, views and refusals, with the translations kept.

``python tools/make_messages.py`` updates ``locale/*/LC_MESSAGES/django.po`` and compiles each beside it, without gettext's
own programs.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import get_args

import django
from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from django.conf import settings
from django.utils.translation.template import templatize

SOURCE = Path(__file__).resolve().parents[1] / "src" / "gudgeon"
LOCALES = SOURCE / "locale"
#: Rooms whose refusals meet a person at the bench; those of calculators and of the command line stay as they are written.
ROOMS = ("web", "workbench", "job", "units", "shelf", "figures", "plans", "verdicts")
CALLS = {"_": 1, "gettext": 1, "gettext_noop": 1, "ngettext": 2}
REFUSALS = {"refuse": slice(1, 3), "said": slice(0, 1), "Said": slice(0, 1)}
Id = str | tuple[str, str]
_CALL = re.compile(r"\b(n?)gettext\((u?(?:'(?:[^'\\]|\\.)*'|\"(?:[^\"\\]|\\.)*\")(?:,\s*u?(?:'(?:[^'\\]|\\.)*'))?)")


def of_templates() -> Iterator[tuple[Id, str]]:
    """What templates say, in Django's own reading of them."""
    for file in sorted((SOURCE / "web").rglob("*.html")):
        for many, words in _CALL.findall(templatize(file.read_text(encoding="utf-8"), origin=str(file))):
            found = ast.literal_eval(f"({words},)")
            yield (found[:2] if many else found[0]), file.relative_to(SOURCE).as_posix()


def of_modules() -> Iterator[tuple[Id, str]]:
    """What views say, and how refusals are worded."""
    for room in ROOMS:
        for file in sorted((SOURCE / room).rglob("*.py")):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                for words in _words(node, faces=room == "web"):
                    yield words, file.relative_to(SOURCE).as_posix()


def _words(node: ast.AST, *, faces: bool) -> Iterator[Id]:
    if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
        return
    said = [arg.value if isinstance(arg, ast.Constant) and isinstance(arg.value, str) else "" for arg in node.args]
    if faces and (count := CALLS.get(node.func.id)):
        yield from [(said[0], said[1])] if count == 2 else filter(None, said[:1])
    elif node.func.id in REFUSALS:
        yield from filter(None, said[REFUSALS[node.func.id]])


def of_the_core() -> Iterator[tuple[Id, str]]:
    """The names that the core gives to things, alone or one after the other."""
    sys.path.insert(0, str(SOURCE.parent))
    from gudgeon.figures.part import CAPTIONS
    from gudgeon.workbench.vocabulary import NAMES

    yield from ((name, "workbench/vocabulary.py") for name in (*NAMES, *CAPTIONS))
    yield from of_its_tables()


def of_its_tables() -> Iterator[tuple[Id, str]]:
    """What stands as words in the tables of the core: how a thing is read, what can hurt, how it is worked out, signs of a leak."""
    from gudgeon.characteristics.catalogue import CHARACTERISTICS
    from gudgeon.measurands.catalogue import MEASURANDS
    from gudgeon.operations.catalogue import OPERATIONS
    from gudgeon.plans.leak_path import CAUSES, RULES, Word
    from gudgeon.problem import CAUTION_END

    read = (w for m in MEASURANDS.values() for w in (m.ask, m.caution, *m.needs, *m.words))
    yield from ((words, "measurands/catalogue.py") for words in read if words)
    yield from ((o.caution, "operations/catalogue.py") for o in OPERATIONS.values() if o.caution)
    judged = (w for c in CHARACTERISTICS.values() for w in (c.formula, c.source))
    yield from ((words, "characteristics/catalogue.py") for words in judged if words)
    leaks = (*CAUSES, *CAUSES.values(), *(r.words for r in RULES), *get_args(Word))
    yield from ((words, "plans/leak_path.py") for words in leaks)
    yield f"{{words}} {CAUTION_END}", "problem.py"


def wanted() -> Mapping[Id, str]:
    """Every message once, with the file it was first found in."""
    found: dict[Id, str] = {}
    for words, where in (*of_templates(), *of_modules(), *of_the_core()):
        single = words[0] if isinstance(words, tuple) else words
        clash = [known for known in found if isinstance(known, tuple) and known[0] == single]
        if isinstance(words, tuple) and single in found:
            found.pop(single)
        if clash and not isinstance(words, tuple):
            continue
        found.setdefault(words, where)
    return found


def updated(known: Catalog) -> Catalog:
    """The catalogue with what is wanted, its translations kept, and nothing else."""
    fresh = Catalog(locale=known.locale, project="Gudgeon", version="1", charset="utf-8", fuzzy=False)
    fresh.revision_date = fresh.creation_date = datetime(2026, 1, 1, tzinfo=UTC)
    for words, where in sorted(wanted().items(), key=lambda row: (row[1], str(row[0]))):
        single = words[0] if isinstance(words, tuple) else words
        old: Message | None = known.get(single)
        fits = old is not None and isinstance(old.string, tuple) == isinstance(words, tuple)
        flags = ["python-brace-format"] if "{" in single else []
        fresh.add(words, old.string if old is not None and fits else None, locations=[(where, 0)], flags=flags)
    return fresh


def said(message: Message) -> bool:
    """Whether a message is translated, in each of its plurals."""
    return all(message.string) if isinstance(message.string, tuple) else bool(message.string)


def main() -> None:
    """All catalogues."""
    settings.configure(USE_I18N=True)
    django.setup()
    for file in sorted(LOCALES.glob("*/LC_MESSAGES/django.po")):
        with file.open("rb") as old:
            catalogue = updated(read_po(old, locale=file.parts[-3]))
        with file.open("wb") as new:
            write_po(new, catalogue, width=120, include_lineno=False)
        with file.with_suffix(".mo").open("wb") as compiled:
            write_mo(compiled, catalogue)
        missing = [message.id for message in catalogue if message.id and not said(message)]
        print(f"{file.parts[-3]}: {len(catalogue)} messages, {len(missing)} missing")


if __name__ == "__main__":
    main()
