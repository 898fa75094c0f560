"""Reads a job archive by docs/archive.md alone, with nothing but the standard library: what somebody else would write.

Nothing of Gudgeon is imported here. ``python independent_reader.py FILE`` prints the readings of a job.
"""

import hashlib
import json
import re
import struct
import sys
import zlib

NAME = re.compile(r"manifest\.json|ledger\.jsonl|books/[0-9a-f]{64}\.toml|pictures/[0-9a-f]{64}\.jpg")
LOCAL, CENTRAL, END = b"PK\3\4", b"PK\1\2", b"PK\5\6"
FIELDS = ["format", "job", "title", "engine_number", "scope", "opened_at", "head", "digest", "files"]


class Broken(Exception):
    """The file is not what the document describes."""


def must(holds, why):
    if not holds:
        raise Broken(why)


def files_of(data):
    """The files by name; every byte of the container is one that the document prescribes."""
    files, at, central = {}, 0, b""
    while data[at : at + 4] == LOCAL:
        must(len(data) >= at + 30, "cut off in a header")
        fields = data[at + 4 : at + 30]
        crc, size, again, length, extra = struct.unpack("<IIIHH", fields[10:])
        must(fields[:10] == struct.pack("<HHHHH", 20, 0, 0, 0, 0x21), "a header says something else")
        must(size == again and extra == 0, "sizes differ, or there is an extra field")
        name = data[at + 30 : at + 30 + length].decode("ascii", "replace")
        body = data[at + 30 + length : at + 30 + length + size]
        must(NAME.fullmatch(name), f"a file of another name: {name!r}")
        must(not files or name > max(files), "names twice, or out of order")
        must(len(body) == size and zlib.crc32(body) == crc, f"{name}: CRC-32 or size is another")
        central += CENTRAL + struct.pack("<H", 0x0314) + fields + struct.pack("<HHHII", 0, 0, 0, 0x01800000, at)
        central += name.encode()
        files[name] = body
        at += 30 + length + size
    end = END + struct.pack("<HHHHIIH", 0, 0, len(files), len(files), len(central), at, 0)
    must(data[at:] == central + end, "the directory at the end is another")
    return files


def read(data):
    """The manifest, the entries and the digest after each of a job archive, all of it checked."""
    files = files_of(data)
    must("manifest.json" in files and "ledger.jsonl" in files, "manifest or ledger is missing")
    manifest = json.loads(files.pop("manifest.json"))
    must(list(manifest) == FIELDS and manifest["format"] == "archive/1", "another format")
    found = {name: hashlib.sha256(body).hexdigest() for name, body in files.items()}
    must(found == manifest["files"], "a file's digest is another")
    must(all(digest in name for name, digest in found.items() if "/" in name), "a name is not its digest")
    *lines, rest = files["ledger.jsonl"].split(b"\n")
    must(rest == b"" and len(lines) == manifest["head"], "the ledger has another length")
    held, digests = bytes(32), []
    for line in lines:
        held = hashlib.sha256(held + line).digest()
        digests.append(held.hex())
    must(digests and digests[-1] == manifest["digest"], "the chain ends in another digest")
    entries = [json.loads(line) for line in lines]
    must([e["seq"] for e in entries] == list(range(1, len(entries) + 1)), "entries are not counted from 1")
    opened = entries[0]["typed"]["body"]
    must(opened["fact"] == "job_opened/1" and opened["number"] == manifest["job"], "it begins as another job")
    return manifest, entries, digests


def readings(entries):
    """Every reading that was not taken back, as it was typed."""
    retracted = set()
    for entry in reversed(entries):  # a retraction can itself have been retracted, later
        body = entry["typed"]["body"]
        if body["fact"] == "retraction/1" and entry["typed"]["id"] not in retracted:
            retracted.add(body["entry"])
    return [
        (e["seq"], b["measurand"], b["where"], b.get("point", ""), b["text"], b["unit"], b["gauge"])
        for e in entries
        if (b := e["typed"]["body"])["fact"] == "reading/1" and e["typed"]["id"] not in retracted
    ]


if __name__ == "__main__":
    with open(sys.argv[1], "rb") as file:
        manifest, entries, digests = read(file.read())
    print(f"job {manifest['job']}, engine {manifest['engine_number']}: {len(entries)} entries, every digest holds")
    for row in readings(entries):
        print(*row, sep="\t")
