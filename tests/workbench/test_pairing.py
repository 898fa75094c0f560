"""The keeper of the door: a code counts once and not for long, only digests are kept, a bench that was sent away stays out."""

from __future__ import annotations

import pytest

from gudgeon.problem import Refused
from gudgeon.workbench.clock import StoryClock
from gudgeon.workbench.pairing import CODE_MINUTES, REST_MINUTES, TRIES, Pairing, digest
from gudgeon.workbench.ports import Bench


class MemoryBenches:
    """The port in two dictionaries."""

    def __init__(self) -> None:
        self.codes: dict[str, str] = {}
        self.kept: dict[str, Bench] = {}

    def put_code(self, digest: str, *, until: str, now: str) -> None:
        self.codes = {d: u for d, u in self.codes.items() if u >= now} | {digest: until}

    def code(self, digest: str) -> str:
        return self.codes.get(digest, "")

    def pair(self, code: str, bench: Bench) -> bool:
        if self.codes.pop(code, None) is None:
            return False
        self.kept[bench.id] = bench
        return True

    def keep(self, bench: Bench) -> None:
        self.kept[bench.id] = bench

    def bench(self, digest: str) -> Bench | None:
        return self.kept.get(digest)

    def benches(self) -> tuple[Bench, ...]:
        return tuple(self.kept.values())

    def end(self, digest: str, at: str) -> bool:
        return self.kept.pop(digest, None) is not None


class MemoryAccounts:
    """Passwords in the clear, for tests only."""

    def __init__(self) -> None:
        self.kept: dict[str, str] = {}

    def put(self, name: str, password: str) -> None:
        self.kept[name] = password

    def proves(self, name: str, password: str) -> bool:
        return self.kept.get(name) == password

    def names(self) -> tuple[str, ...]:
        return tuple(self.kept)

    def remove(self, name: str) -> None:
        del self.kept[name]


@pytest.fixture
def door() -> Pairing:
    return Pairing(benches=MemoryBenches(), accounts=MemoryAccounts(), clock=StoryClock("2026-11-25T08:00:00Z"))


def later(door: Pairing, minutes: int) -> None:
    assert isinstance(door.clock, StoryClock)
    door.clock.go_on(minutes=minutes)


def test_a_code_pairs_one_bench_and_is_used_up(door: Pairing) -> None:
    code = door.new_code()
    paired = door.pair(code, " head  bench ")
    assert paired.bench.name == "head bench"
    assert door.bench(paired.secret) == paired.bench
    with pytest.raises(Refused, match="used or is too old"):
        door.pair(code, "another")


def test_only_digests_are_kept(door: Pairing) -> None:
    code = door.new_code()
    assert isinstance(door.benches, MemoryBenches)
    assert code not in door.benches.codes and digest(code) in door.benches.codes
    paired = door.pair(code, "north")
    assert paired.secret not in str(door.benches.kept)
    assert door.bench(digest(paired.secret)) is None, "what is kept is no way in"


def test_a_code_grows_old(door: Pairing) -> None:
    code = door.new_code()
    later(door, CODE_MINUTES + 1)
    assert not door.code_counts(code)
    with pytest.raises(Refused, match="too old"):
        door.pair(code, "north")


@pytest.mark.parametrize("name", ["", "   ", "x" * 41, "a\x00b", "NORTH"])
def test_names_that_are_none_or_taken_use_nothing_up(door: Pairing, name: str) -> None:
    door.pair(door.new_code(), "north")
    code = door.new_code()
    with pytest.raises(Refused):
        door.pair(code, name)
    assert door.code_counts(code)


def test_a_bench_that_was_sent_away_stays_out(door: Pairing) -> None:
    paired = door.pair(door.new_code(), "north")
    door.end(paired.bench.id)
    assert door.bench(paired.secret) is None
    with pytest.raises(Refused, match="sent away already"):
        door.end(paired.bench.id)


def test_nothing_and_nonsense_are_no_secret(door: Pairing) -> None:
    assert door.bench("") is None
    assert door.bench("\ud800") is None


def test_an_account_comes_in_and_wrong_passwords_make_it_rest(door: Pairing) -> None:
    door.put_account("mara", "a long enough one")
    assert door.enter("mara", "a long enough one").bench.name == "mara"
    for _ in range(TRIES):
        with pytest.raises(Refused, match="do not belong together"):
            door.enter("mara", "guess")
    with pytest.raises(Refused, match="Too many"):
        door.enter("mara", "a long enough one")
    with pytest.raises(Refused, match="do not belong together"):
        door.enter("nobody", "a long enough one")
    later(door, REST_MINUTES + 1)
    assert door.enter("mara", "a long enough one")


@pytest.mark.parametrize(
    ("name", "password"), [("", "a long enough one"), ("mara", "short"), ("a-long-name", "A-Long-Name")]
)
def test_weak_accounts_are_refused(door: Pairing, name: str, password: str) -> None:
    with pytest.raises(Refused):
        door.put_account(name, password)
    assert door.accounts.names() == ()


def test_an_account_that_goes_takes_its_benches_along(door: Pairing) -> None:
    door.put_account("mara", "a long enough one")
    mine, other = door.enter("mara", "a long enough one"), door.pair(door.new_code(), "north")
    door.remove_account("mara")
    assert door.bench(mine.secret) is None and door.bench(other.secret) == other.bench
