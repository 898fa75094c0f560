"""Entries as JSON text and back. The text that was stored is what is hashed: it is never encoded again."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import msgspec

from gudgeon.job.entries import Body, Entry, Typed
from gudgeon.problem import Refused, refuse

_ENCODER = msgspec.json.Encoder()
_ENTRY = msgspec.json.Decoder(Entry)
_TYPED = msgspec.json.Decoder(Typed)
_KNOWN = re.compile(r'"fact":\s*"([a-z_]+/\d+)"')

Raw = dict[str, Any]
T = TypeVar("T", Typed, Entry)

#: Steps from an older tag to the next one: ``{"reading/1": step}`` returns the body of ``reading/2``.
UPCASTS: Mapping[str, Callable[[Raw], Raw]] = {}

LARGEST_ENTRY = 64 * 1024


def encode(thing: Entry | Typed) -> str:
    """The one JSON text of an entry: fields in the order of the structs, dictionaries as the bench sent them."""
    return _ENCODER.encode(thing).decode()


def landed_line(typed_text: str, *, seq: int, landed_at: str, account: str) -> str:
    """The line of a landed entry, holding what the bench typed byte for byte."""
    frame = {"seq": seq, "landed_at": landed_at, "account": account, "typed": msgspec.Raw(typed_text.encode())}
    return msgspec.json.encode(frame).decode()


def typed_text(line: str) -> str:
    """What the bench sent, byte for byte, out of a stored line."""
    return bytes(msgspec.json.decode(line, type=_Frame).typed).decode()


class _Frame(msgspec.Struct):
    typed: msgspec.Raw


def decode_typed(text: str | bytes, where: str = "entry") -> Typed:
    """What a bench sent, or :class:`Refused` naming the field that is wrong."""
    size = len(text) if isinstance(text, bytes) else len(text.encode("utf-8", "surrogatepass"))
    if size > LARGEST_ENTRY:
        raise refuse(where, "The entry has {n} bytes.", "Send at most {most}.", n=size, most=LARGEST_ENTRY)
    return _decoded(_TYPED, Typed, text, where)


def decode(line: str, where: str = "entry") -> Entry:
    """A stored line, upcast where an earlier Gudgeon wrote it, refused where a later one did."""
    return _decoded(_ENTRY, Entry, line, where)


def _decoded(decoder: msgspec.json.Decoder[T], shape: type[T], text: str | bytes, where: str) -> T:
    try:
        return decoder.decode(text)
    except (msgspec.MsgspecError, ValueError, RecursionError) as wrong:
        return _older(shape, text, where, wrong)


def _older(shape: type[T], text: str | bytes, where: str, wrong: Exception) -> T:
    """Upcast step by step, or say what is wrong."""
    try:
        raw = msgspec.json.decode(text)
        holder = raw.get("typed", raw)
        tag = holder["body"]["fact"]
        while tag in UPCASTS:
            holder["body"] = UPCASTS[tag](holder["body"])
            tag = holder["body"]["fact"]
        return msgspec.convert(raw, shape)
    except (msgspec.MsgspecError, ValueError, RecursionError) as still:
        raise _unreadable(text, where, still) from None
    except (LookupError, TypeError, AttributeError):
        raise _unreadable(text, where, wrong) from None


def _unreadable(text: str | bytes, where: str, wrong: Exception) -> Refused:
    words = text.decode("utf-8", "replace") if isinstance(text, bytes) else text
    found = _KNOWN.search(words[:LARGEST_ENTRY])
    if found and found.group(1) not in TAGS:
        return refuse(
            where,
            "This entry ({tag}) was written by a later Gudgeon.",
            "Open the job with the version that wrote it, or a newer one.",
            tag=found.group(1),
        )
    return refuse(where, "The entry cannot be read: {why}.", "Send it again as it was typed.", why=str(wrong)[:200])


TAGS = frozenset(str(kind.__struct_config__.tag) for kind in Body.__args__)
