"""Adding a kind is one file and one line: none is forgotten in its catalogue, each says why, and its example runs."""

import ast
import importlib
import shlex
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

SOURCE = Path(__file__).resolve().parents[2] / "src" / "gudgeon"
ROOMS = sorted(folder.parent.name for folder in SOURCE.glob("*/kinds") if folder.is_dir())
KINDS = [(room, path.stem) for room in ROOMS for path in sorted((SOURCE / room / "kinds").glob("[!_]*.py"))]


def load(room: str, kind: str) -> ModuleType:
    return importlib.import_module(f"gudgeon.{room}.kinds.{kind}")


def listed(text: str) -> set[str]:
    """What a catalogue names outside its import lines: names used, and the last part of any dotted text."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(text)):
        match node:
            case ast.Name(id=name, ctx=ast.Load()) | ast.Attribute(attr=name):
                found.add(name)
            case ast.Constant(value=str(words)):
                found.add(words.rpartition(".")[2])
    return found


def test_there_are_kinds_to_look_at() -> None:
    assert ROOMS
    assert KINDS


@pytest.mark.parametrize(("room", "kind"), KINDS)
def test_a_kind_stands_in_its_catalogue(room: str, kind: str) -> None:
    assert kind in listed((SOURCE / room / "catalogue.py").read_text(encoding="utf-8"))


def test_an_import_alone_is_no_entry() -> None:
    text = "from gudgeon.x.kinds import one, two\nALL = {k.KIND.key: k.KIND for k in (one,)}\nLATER = 'gudgeon.x.kinds.late'\n"
    assert {"one", "late"} <= listed(text)
    assert "two" not in listed(text)


@pytest.mark.parametrize(("room", "kind"), KINDS)
def test_a_kind_says_why(room: str, kind: str) -> None:
    why = ast.get_docstring(ast.parse((SOURCE / room / "kinds" / f"{kind}.py").read_text(encoding="utf-8")))
    assert len(why or "") >= 40


@pytest.mark.parametrize("room", ROOMS)
def test_a_key_is_used_once(room: str) -> None:
    modules = [load(room, kind) for of, kind in KINDS if of == room]
    keys = Counter(module.KIND.key if hasattr(module, "KIND") else module.KEY for module in modules)
    assert [key for key, times in keys.items() if times > 1] == []


def measurand(kind: Any) -> None:
    """A measurand's example is something that its own field would accept."""
    from gudgeon.units import read_indication

    if kind.dimension == "words":
        assert kind.example in kind.words
        return
    seen = read_indication(kind.example, kind.dimension, unit=kind.unit)
    ends = [end.value for end in (seen.low, seen.high) if end is not None]
    assert ends
    if kind.plausible is not None:
        low, high = kind.plausible
        assert all(low <= end <= high for end in ends)


def characteristic(kind: Any) -> None:
    """A characteristic's example is a value it could have, and what it wants can be measured where it says."""
    from gudgeon.measurands.catalogue import MEASURANDS
    from gudgeon.units import read_indication

    if kind.dimension == "words":
        assert kind.example in {word for want in kind.wants for word in MEASURANDS[want.measurand].words}
    else:
        read_indication(kind.example, kind.dimension, unit=kind.unit)
    for engine in engines():
        for where in kind.where(engine):
            assert all(want.at(engine, where) in MEASURANDS[want.measurand].where(engine) for want in kind.wants)


def engines() -> list[Any]:
    """Two engines that between them have every place: finger followers under two cams, and push rods with screws."""
    from gudgeon.anatomy import Layout, Side, expand

    finger, screw = Side(valves=2, follower="finger"), Side(valves=1, follower="pushrod_screw")
    return [
        expand(Layout(cylinders=1, arrangement="single", intake=finger, exhaust=finger)),
        expand(Layout(cylinders=1, arrangement="single", intake=screw, exhaust=screw, cam_drive="pushrod")),
    ]


def operation(kind: Any) -> None:
    """An operation's example is a place of some engine, and what it disturbs or closes there exists."""
    from gudgeon.anatomy import Surface

    fitting = [engine for engine in engines() if kind.example in kind.where(engine)]
    assert fitting
    for engine in fitting:
        met = (*kind.disturbs(engine, kind.example, {}), *kind.closes(engine, kind.example, {}))
        assert [str(one) for one in met if isinstance(one, Surface) and not engine.has(one.slot)] == []


def calculator(kind: Any) -> None:
    """A calculator's example is what a hand would type after its name."""
    from gudgeon.calculators.asking import pairs, work_out

    files = {key.name for key in kind.keys if key.dimension == "file"}
    typed = [(name, kind.example_file if name in files else text) for name, text in pairs(shlex.split(kind.example))]
    answer = work_out(kind, typed)
    assert answer.results
    assert answer.source


RUN: dict[str, Callable[[Any], None]] = {
    "measurands": measurand,
    "operations": operation,
    "calculators": calculator,
    "characteristics": characteristic,
}
EXAMPLES = [(room, name) for room, name in KINDS if hasattr(getattr(load(room, name), "KIND", None), "example")]


@pytest.mark.parametrize(("room", "kind"), EXAMPLES)
def test_an_example_runs(room: str, kind: str) -> None:
    assert room in RUN, f"say in RUN how an example of {room} is run"
    RUN[room](load(room, kind).KIND)
