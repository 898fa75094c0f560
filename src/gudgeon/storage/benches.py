"""Paired benches and accounts: what stands between a network and the workshop."""

from __future__ import annotations

from django.contrib.auth.hashers import check_password, make_password
from django.contrib.auth.models import User

from gudgeon.problem import refuse
from gudgeon.storage.append import written
from gudgeon.storage.models import PairedBench, PairingCode
from gudgeon.storage.trouble import told
from gudgeon.workbench.ports import Bench


class SqlBenches:
    """Benches and codes by digest; nothing here could be used to come in."""

    def put_code(self, digest: str, *, until: str, now: str) -> None:
        """Keep a code; those too old go."""
        with written("pairing"):
            PairingCode.objects.filter(until__lt=now).delete()
            PairingCode.objects.create(id=digest, until=until)

    def code(self, digest: str) -> str:
        """Until when a code counts, or nothing."""
        with told("pairing"):
            return PairingCode.objects.filter(id=digest).values_list("until", flat=True).first() or ""

    def pair(self, code: str, bench: Bench) -> bool:
        """Use a code up and keep the bench, both or neither; false when another was quicker."""
        with written("pairing"):
            if not PairingCode.objects.filter(id=code).delete()[0]:
                return False
            self._keep(bench)
            return True

    def keep(self, bench: Bench) -> None:
        """Keep a bench that came in by its account."""
        with written("pairing"):
            self._keep(bench)

    def _keep(self, bench: Bench) -> None:
        PairedBench.objects.create(id=bench.id, name=bench.name, paired_at=bench.paired_at)

    def bench(self, digest: str) -> Bench | None:
        """A bench that has not been sent away."""
        with told("pairing"):
            row = PairedBench.objects.filter(id=digest, ended_at="").first()
        return Bench(id=row.id, name=row.name, paired_at=row.paired_at) if row else None

    def benches(self) -> tuple[Bench, ...]:
        """Those that may come in, the first paired first."""
        with told("pairing"):
            rows = PairedBench.objects.filter(ended_at="").order_by("paired_at", "name")
            return tuple(Bench(id=row.id, name=row.name, paired_at=row.paired_at) for row in rows)

    def end(self, digest: str, at: str) -> bool:
        """Send a bench away; its row stays, so that a name in a ledger can be traced."""
        with written("pairing"):
            return bool(PairedBench.objects.filter(id=digest, ended_at="").update(ended_at=at))


class SqlAccounts:
    """Names and passwords (Argon2), for whoever has no camera to point at a code."""

    def put(self, name: str, password: str) -> None:
        """Make an account or change its password."""
        with written("account"):
            User.objects.update_or_create(username=name, defaults={"password": make_password(password)})

    def proves(self, name: str, password: str) -> bool:
        """Whether the password is the account's; as slow for a name that is not there."""
        with told("account"):
            kept = User.objects.filter(username=name, is_active=True).values_list("password", flat=True).first()
        if kept is None:
            make_password(password)
            return False
        return check_password(password, kept)

    def names(self) -> tuple[str, ...]:
        """Every account."""
        with told("account"):
            return tuple(User.objects.order_by("username").values_list("username", flat=True))

    def remove(self, name: str) -> None:
        """Take an account away."""
        with written("account"):
            if not User.objects.filter(username=name).delete()[0]:
                raise refuse("account", "There is no account {name}.", "See `gudgeon account list`.", name=name)
