"""The workshop's own authority, judged by OpenSSL: it vouches for this computer and private networks, and for nothing else."""

from __future__ import annotations

import ipaddress
import ssl
import stat
import threading
from datetime import datetime, timedelta
from pathlib import Path
from socket import create_connection, create_server

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec

from gudgeon.problem import Refused
from gudgeon.storage.clock import SystemClock
from gudgeon.wiring.certificates import Certificate, fingerprint, given, own
from gudgeon.wiring.network import is_private, own_addresses, own_names

NAMES, ADDRESSES = ("bench.local", "bench", "localhost"), ("192.168.7.20",)
NOW = "2026-11-25T08:00:00Z"


def today() -> str:
    """OpenSSL looks at the real time."""
    return SystemClock().now()


def met(server: Certificate, authority: Path, name: str) -> str:
    """The protocol that a tablet which trusts the authority agrees on under a name; raises where it does not trust."""
    asked = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    asked.load_cert_chain(server.cert, server.key)
    with create_server(("127.0.0.1", 0)) as listening:

        def answer() -> None:
            one, _ = listening.accept()
            try:
                with asked.wrap_socket(one, server_side=True) as wrapped:
                    wrapped.recv(1)
            except (ssl.SSLError, OSError):
                pass

        thread = threading.Thread(target=answer, daemon=True)
        thread.start()
        trusting = ssl.create_default_context(cafile=str(authority))
        with (
            create_connection(listening.getsockname()) as plain,
            trusting.wrap_socket(plain, server_hostname=name) as wrapped,
        ):
            return str(wrapped.version())


@pytest.mark.parametrize("name", ["192.168.7.20", "127.0.0.1", "bench.local", "localhost"])
def test_a_tablet_that_trusts_the_authority_trusts_the_bench(tmp_path: Path, name: str) -> None:
    made = own(tmp_path, NAMES, ADDRESSES, today())
    assert made.authority is not None
    assert met(made, made.authority, name) == "TLSv1.3"


def test_under_another_name_it_does_not(tmp_path: Path) -> None:
    made = own(tmp_path, NAMES, ADDRESSES, today())
    assert made.authority is not None
    with pytest.raises(ssl.SSLCertVerificationError):
        met(made, made.authority, "192.168.7.21")


@pytest.mark.parametrize("name", ["bank.example", "203.0.113.9"])
def test_a_stolen_key_of_the_authority_cannot_stand_in_for_others(tmp_path: Path, name: str) -> None:
    """Signed by the very key, for a name outside: OpenSSL refuses it by the name constraints (RFC 5280, 4.2.1.10)."""
    made = own(tmp_path, NAMES, ADDRESSES, today())
    assert made.authority is not None
    forged = _forged(tmp_path, made.authority, name)
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree"):
        met(forged, made.authority, name)


def _forged(folder: Path, authority: Path, name: str) -> Certificate:
    signer = serialization.load_pem_private_key((folder / "authority.key").read_bytes(), None)
    assert isinstance(signer, ec.EllipticCurvePrivateKey)
    key, at = ec.generate_private_key(ec.SECP256R1()), datetime.fromisoformat(today())
    other: x509.GeneralName = x509.IPAddress(ipaddress.ip_address(name)) if name[0].isdigit() else x509.DNSName(name)
    cert = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([]))
        .issuer_name(x509.load_pem_x509_certificate(authority.read_bytes()).subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(at - timedelta(days=1))
        .not_valid_after(at + timedelta(days=9))
        .add_extension(x509.SubjectAlternativeName([other]), critical=True)
        .sign(signer, hashes.SHA256())
    )
    pem = key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    (folder / "forged.pem").write_bytes(cert.public_bytes(serialization.Encoding.PEM))
    (folder / "forged.key").write_bytes(pem)
    return Certificate(cert=folder / "forged.pem", key=folder / "forged.key")


def test_it_is_made_once_and_anew_when_an_address_changes_or_it_soon_ends(tmp_path: Path) -> None:
    first = own(tmp_path, NAMES, ADDRESSES, NOW)
    assert first.authority is not None
    text, mark = first.cert.read_bytes(), fingerprint(first.authority)
    assert own(tmp_path, NAMES, ADDRESSES, "2026-12-25T08:00:00Z").cert.read_bytes() == text
    assert own(tmp_path, NAMES, ("192.168.7.99",), NOW).cert.read_bytes() != text
    assert own(tmp_path, NAMES, ADDRESSES, "2027-11-20T08:00:00Z").cert.read_bytes() != text
    assert fingerprint(first.authority) == mark, "tablets that trust it need nothing new"
    own(tmp_path, NAMES, ADDRESSES, "2036-11-20T08:00:00Z")
    assert fingerprint(first.authority) != mark


def test_keys_are_nobody_elses(tmp_path: Path) -> None:
    own(tmp_path, NAMES, ADDRESSES, NOW)
    for name in ("authority.key", "bench.key"):
        assert stat.S_IMODE((tmp_path / name).stat().st_mode) == 0o600


def test_a_given_certificate_needs_its_own_key(tmp_path: Path) -> None:
    one, two = own(tmp_path / "1", NAMES, ADDRESSES, NOW), own(tmp_path / "2", NAMES, ADDRESSES, NOW)
    assert given(str(one.cert), str(one.key)).cert == one.cert
    with pytest.raises(Refused, match="do not belong together"):
        given(str(one.cert), str(two.key))
    (tmp_path / "words.pem").write_text("no certificate")
    with pytest.raises(Refused, match="cannot be read"):
        given(str(tmp_path / "words.pem"), str(one.key))


def test_the_names_of_this_computer() -> None:
    assert "localhost" in own_names()
    assert all(not ipaddress.ip_address(a).is_loopback for a in own_addresses())
    assert is_private("10.1.2.3") and is_private("192.168.0.9") and not is_private("203.0.113.9")
