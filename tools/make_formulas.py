"""Write ``docs/formulas.md``: every formula of ``mechanics`` and ``metrology`` with its source and its check, from docstrings.

``python tools/make_formulas.py`` writes the page; ``--check`` only says whether it is up to date.
"""

import ast
import re
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "docs" / "formulas.md"
ROOMS = ("mechanics", "metrology")
NO_FORMULAS = {"__init__", "_given", "given"}
START = """# Formulas

*Generated from docstrings by `tools/make_formulas.py`; do not edit by hand.*

Lengths are in mm, forces in N, torques in N·m, pressures in kPa, angles in degrees unless a name says otherwise: the unit is
the end of every name. "Derived here" means plain geometry or arithmetic that anyone can repeat; "from memory" means that
the source was not at hand when the formula was written. *Checked in* names the test modules that use the function.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """One public function: what is said of it, and where it is checked."""

    room: str
    module: str
    name: str
    arguments: str
    what: str
    formula: str
    valid: str
    source: str
    check: str
    tests: tuple[str, ...]


def sections(docstring: str) -> dict[str, str]:
    """A numpydoc docstring by section; what stands before the first section is under the empty name."""
    found: dict[str, list[str]] = {"": []}
    current = ""
    lines = docstring.splitlines()
    for number, line in enumerate(lines):
        under = lines[number + 1] if number + 1 < len(lines) else ""
        if line.strip() and re.fullmatch(r"-{3,}", under.strip()):
            current = line.strip()
            found[current] = []
        elif not (re.fullmatch(r"-{3,}", line.strip()) and current):
            found[current].append(line.strip())
    return {name: flat(body) for name, body in found.items()}


def flat(lines: list[str]) -> str:
    """Paragraphs joined to one line each."""
    paragraphs = "\n".join(lines).strip().split("\n\n")
    return "\n\n".join(" ".join(paragraph.split()) for paragraph in paragraphs)


def source_of(parts: dict[str, str], module_words: str) -> tuple[str, str]:
    """The source, and the notes without it: its own section, or the words behind "Source:", or those of the module."""
    notes = parts.get("Notes", "")
    for section in ("Source", "References"):
        if section in parts:
            return parts[section], notes
    for text, rest in ((notes, True), (parts[""], False), (flat(module_words.splitlines()), False)):
        found = re.search(r"(?:^|(?<=\s))Sources?:\s*(.+)", text, re.DOTALL)
        if found:
            return found[1].strip(), text[: found.start()].strip() if rest else notes
    return "", notes


def mentions(folder: Path) -> list[tuple[str, set[str], set[str]]]:
    """Per test module: its name, the names it uses, and the modules of formulas that it imports."""
    found = []
    for path in sorted(folder.rglob("test_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        names: set[str] = set()
        modules: set[str] = set()
        for node in ast.walk(tree):
            match node:
                case ast.Name(id=name) | ast.Attribute(attr=name) | ast.alias(name=name):
                    names.add(name)
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("gudgeon."):
                modules |= {(node.module or "").rpartition(".")[2], *(alias.name for alias in node.names)}
        found.append((str(path.relative_to(folder.parent)), names, modules))
    return found


def formulas(root: Path = ROOT) -> list[Formula]:
    """Every public function of the rooms, in the order of the files."""
    tests = mentions(root / "tests")
    found = []
    for room in ROOMS:
        for path in sorted((root / "src" / "gudgeon" / room).glob("*.py")):
            if path.stem not in NO_FORMULAS:
                found += _of_module(room, path, tests)
    return found


def _of_module(room: str, path: Path, tests: list[tuple[str, set[str], set[str]]]) -> list[Formula]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    words = ast.get_docstring(tree) or ""
    public = [node for node in tree.body if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")]
    found = []
    for node in public:
        parts = sections(ast.get_docstring(node) or "")
        what, _, formula = parts[""].partition("\n\n")
        source, notes = source_of(parts, words)
        used = tuple(name for name, names, modules in tests if node.name in names and path.stem in modules)
        arguments = ", ".join(argument.arg for argument in (*node.args.args, *node.args.kwonlyargs))
        found.append(
            Formula(
                room=room,
                module=path.stem,
                name=node.name,
                arguments=arguments,
                what=what,
                formula=formula,
                valid=notes,
                source=source,
                check=parts.get("Check", ""),
                tests=used,
            )
        )
    return found


def page(found: list[Formula]) -> str:
    """The whole page."""
    blocks = [START]
    before = ("", "")
    for one in found:
        if one.room != before[0]:
            blocks.append(f"## {one.room}\n")
        if (one.room, one.module) != before:
            blocks.append(f"### {one.module}\n")
        before = (one.room, one.module)
        blocks.append(entry(one))
    return "\n".join(blocks)


def entry(one: Formula) -> str:
    """One function: what it gives, how, when it holds, from where, and what it was compared with."""
    lines = [f"#### `{one.name}({one.arguments})`\n", f"{one.what}\n"]
    if one.formula:
        lines += [f"> {paragraph}\n" for paragraph in one.formula.split("\n\n")]
    if one.valid:
        valid = " ".join(one.valid.split()).removeprefix("Valid: ")
        lines.append(f"- Valid and noted: {valid}")
    lines.append(f"- Source: {' '.join(one.source.split()) or 'none given'}")
    if one.check:
        lines.append(f"- Compared with: {' '.join(one.check.split())}")
    where = ", ".join(f"`{name}`" for name in one.tests) or "its example only"
    lines.append(f"- Checked in: {where}\n")
    return "\n".join(lines)


def main(words: list[str]) -> int:
    """Write the page, or with ``--check`` say whether it is up to date."""
    text = page(formulas())
    if "--check" in words:
        same = PAGE.is_file() and PAGE.read_text(encoding="utf-8") == text
        print("docs/formulas.md is up to date." if same else "docs/formulas.md is stale: run tools/make_formulas.py.")
        return 0 if same else 1
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(text, encoding="utf-8")
    print(f"docs/formulas.md: {len(formulas())} formulas")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
