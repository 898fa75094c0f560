"""One word per thing: what the screens call a thing they call it everywhere, in every template, view and refusal."""

from __future__ import annotations

import re
import sys
from importlib import util
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
#: The word, and others that a screen might use for the same thing. Words in brackets are right where they stand.
THINGS = {
    "lash": r"valve clearance|valve play|tappet",
    "job": r"work order|ticket|\bcase\b|project\b|repair order",
    "book": r"(?<!maker's )manual\b|handbook|data ?sheet|specification|\bspecs?\b",
    "gauge": r"instrument|measuring (tool|device|equipment)|\bgage\b",
    "shelf": r"inventory|tool ?box|\bstore(?!d)\b|warehouse",
    "reading": r"measurements?\b|\bmeasuring point",
    "place": r"\blocation|\bposition|\bspot\b",
    "verdict": r"\bassessment|\bevaluation|\bjudg(e)?ment|\brating",
    "ledger": r"\blogs?\b|log ?book|\bhistory\b|audit trail",
    "entry": r"\brecords?\b(?! of)(?<!hand-over record)|\btransaction",
    "hold": r"checkpoint|\bgate\b|\bmilestone",
    "route": r"\bworkflow|\bchecklist|\bprocedure",
    "limit": r"\bthreshold|\btolerance\b|wear bound",
    "paper": r"\bdocuments?\b|\bprint-?outs?\b|\breports\b",
    "by": r"\boperator|\btechnician|\busers?\b|\bemployee",
    "owner": r"\bcustomers?\b|\bclients?\b",
    "hand-over": r"\bdelivery\b|\bcheck-?out\b",
    "bench": r"\bworkstation|\bterminal\b|\bdevice",
    "copy": r"\bback-?ups?\b|\bsnapshot",
    "queue": r"\bsync|\boutbox|\bupload queue",
    "machining order": r"\bwork sheet for the shop|machining request",
    "shim": r"\bpads?\b|\bdiscs?\b|\bwasher",
    "bucket": r"\btappets?\b|\bcup follower",
    "piston pin": r"gudgeon pin|wrist pin",
    "stem seal": r"valve seal|oil seal of the stem",
    "keepers": r"\bcollets?\b|\bcotters?\b|\bkeys of the valve",
    "torque": r"tightening moment|\btightness\b",
    "put away, send away, take back": r"\bdeletes?\b|\bdeleted\b|\berase|\bdiscard",
    "Save, Keep": r"\bsubmit|\bapply changes|\bstore it\b",
    "what is wrong": r"\bwarning|\bfatal|\bexception\b|\binvalid\b|\boops|\bsorry",
}


def said() -> dict[str, str]:
    """Every English sentence of the screens, with the file it stands in."""
    found = util.spec_from_file_location("make_messages", ROOT / "tools" / "make_messages.py")
    assert found and found.loader
    module = util.module_from_spec(found)
    sys.modules["make_messages"] = module
    found.loader.exec_module(module)
    wanted = module.wanted()
    return {
        text: where for words, where in wanted.items() for text in (words if isinstance(words, tuple) else (words,))
    }


def other_words(text: str, pattern: str) -> list[str]:
    """What stands in a text instead of the word that is ours."""
    return [found[0] for found in re.finditer(pattern, text, re.IGNORECASE)]


@pytest.fixture(scope="module")
def sentences() -> dict[str, str]:
    """All sentences, read once."""
    return said()


@pytest.mark.parametrize("thing", THINGS)
def test_a_thing_has_one_word(sentences: dict[str, str], thing: str) -> None:
    assert len(sentences) > 1000
    assert {t: (w, where) for t, where in sentences.items() if (w := other_words(t, THINGS[thing]))} == {}


@pytest.mark.parametrize("thing", THINGS)
def test_templates_hold_no_other_word_outside_their_sentences(thing: str) -> None:
    found = {}
    for file in (ROOT / "src" / "gudgeon" / "web").rglob("*.html"):
        text = re.sub(r"\{[{%#].*?[#%}]\}", " ", file.read_text(encoding="utf-8"), flags=re.DOTALL)
        text = re.sub(r"<(script|style)\b.*?</\1>|<[^>]*>", " ", text, flags=re.DOTALL)
        if words := other_words(text, THINGS[thing]):
            found[file.name] = words
    assert found == {}


@pytest.mark.parametrize(
    ("thing", "text"),
    [
        ("lash", "Check the valve clearance."),
        ("book", "See the manual."),
        ("ledger", "Show the log"),
        ("bench", "This device"),
    ],
)
def test_the_list_bites(thing: str, text: str) -> None:
    assert other_words(text, THINGS[thing])


def test_what_is_right_is_let_pass() -> None:
    assert other_words("The maker's manual comes first.", THINGS["book"]) == []
    assert other_words("write the hand-over record", THINGS["entry"]) == []
