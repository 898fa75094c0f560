"""On the workshop's network: certificate, names, the page that installs it, and the first code."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.problem import refuse
from gudgeon.wiring.bench import pairing
from gudgeon.wiring.folder import data_folder
from gudgeon.wiring.install import install_page
from gudgeon.wiring.network import own_addresses, own_names

if TYPE_CHECKING:
    from gudgeon.wiring.certificates import Certificate

#: Minutes that the code printed at the start counts.
FIRST_CODE = 15


@dataclass(frozen=True, slots=True, kw_only=True)
class Lan:
    """How the network is served: with an own authority, a given certificate, or plainly, and under which further name."""

    cert: str = ""
    key: str = ""
    plain: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """Where tablets find the bench, and the address that pairs this computer's own browser."""

    address: str
    pair_here: str
    certificate: Certificate | None


def on_network(lan: Lan, port: int, say: Callable[[str], None]) -> Served:
    """Make what is needed, tell the server by its environment, and say how a tablet comes in."""
    if bool(lan.cert) != bool(lan.key):
        raise refuse("certificate", "A certificate needs its key.", "Say --cert FILE and --key FILE.")
    if lan.plain and lan.cert:
        raise refuse("certificate", "--plain serves without one.", "Say one or the other.")
    addresses = own_addresses()
    if not addresses:
        raise refuse("network", "This computer has no address on a network.", "Connect it first.")
    names = tuple(dict.fromkeys((*([lan.name.lower()] if lan.name else []), *own_names())))
    certificate = None if lan.plain else _certificate(lan, names, addresses)
    scheme = "http" if lan.plain else "https"
    host = lan.name or addresses[0]
    os.environ["GUDGEON_NETWORK"] = "plain" if lan.plain else "tls"
    os.environ["GUDGEON_HOSTS"] = ",".join((*names, *addresses))
    door = pairing()
    code, here = door.new_code(FIRST_CODE), door.new_code(FIRST_CODE)
    address = f"{scheme}://{host}:{port}/"
    if certificate and certificate.authority:
        _say_install(certificate, host, port, address, say)
    if lan.plain:
        say("Without a certificate: a page that is loaded again while the network is away is gone; keep it open.")
    say(f"Pair the first bench within {FIRST_CODE} minutes: {address}pair/{code}")
    _draw(f"{address}pair/{code}", say)
    return Served(address=address, pair_here=f"{scheme}://localhost:{port}/pair/{here}", certificate=certificate)


def _certificate(lan: Lan, names: tuple[str, ...], addresses: tuple[str, ...]) -> Certificate:
    from gudgeon.wiring import certificates
    from gudgeon.wiring.bench import system_clock

    if lan.cert:
        return certificates.given(lan.cert, lan.key)
    return certificates.own(data_folder() / "tls", names, addresses, system_clock().now())


def _say_install(certificate: Certificate, host: str, port: int, address: str, say: Callable[[str], None]) -> None:
    from gudgeon.wiring.certificates import fingerprint

    assert certificate.authority is not None
    mark = fingerprint(certificate.authority)
    at = install_page(certificate.authority, host, port + 1, address, mark)
    os.environ["GUDGEON_INSTALL"] = at
    say(f"Once a tablet: install the workshop's certificate from {at}")
    say(f"Its fingerprint (SHA-256): {mark}")


def _draw(address: str, say: Callable[[str], None]) -> None:
    """The code for a camera, in the terminal."""
    import io

    import segno

    drawn = io.StringIO()
    segno.make(address, error="m").terminal(out=drawn, compact=True)
    say(drawn.getvalue())
