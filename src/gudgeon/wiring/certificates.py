"""The workshop's own certificate authority, made on this computer: with it a tablet trusts the bench and nothing else.

The authority may vouch for private addresses and this computer's names only (RFC 5280, 4.2.1.10, name constraints), so that
whoever stole its key could not stand in for a bank. A server's certificate lasts a year at most, as browsers want it.
"""

from __future__ import annotations

import ipaddress
import os
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from gudgeon.problem import refuse
from gudgeon.wiring.network import PRIVATE, is_private

AUTHORITY_DAYS = 3650
#: Browsers refuse longer ones (CA/Browser Forum baseline requirements: 398 days; from memory).
SERVER_DAYS = 365
#: A certificate that ends this soon is made anew at the next start.
RENEW_DAYS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """Where certificate and key lie, and, of an own authority, what a tablet must install."""

    cert: Path
    key: Path
    authority: Path | None = None


def given(cert: str, key: str) -> Certificate:
    """A certificate of the workshop's own making; both files must be readable and belong together."""
    try:
        public = x509.load_pem_x509_certificate(Path(cert).read_bytes()).public_key()
        private = serialization.load_pem_private_key(Path(key).read_bytes(), None)
    except (OSError, ValueError, TypeError) as wrong:
        raise refuse("certificate", "It cannot be read: {why}.", "Name a PEM certificate and its PEM key without a password.",
                     why=str(wrong) or type(wrong).__name__) from wrong  # fmt: skip
    if _public(private.public_key()) != _public(public):
        raise refuse("certificate", "Certificate and key do not belong together.", "Name the key of this certificate.")
    return Certificate(cert=Path(cert), key=Path(key))


def own(folder: Path, names: tuple[str, ...], addresses: tuple[str, ...], now: str) -> Certificate:
    """The certificate for these names and addresses; made, or made anew when they changed or it soon ends."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    at = datetime.fromisoformat(now.replace("Z", "+00:00"))
    authority, key = _authority(folder, _permitted(names, addresses), at)
    kept = Certificate(cert=folder / "bench.pem", key=folder / "bench.key", authority=folder / "authority.crt")
    if not _serves(kept, authority, names, addresses, at):
        _issue(kept, authority, key, names, addresses, at)
    return kept


def fingerprint(cert: Path) -> str:
    """What a person compares: the SHA-256 of the certificate, in pairs."""
    return x509.load_pem_x509_certificate(cert.read_bytes()).fingerprint(hashes.SHA256()).hex(":").upper()


def _authority(
    folder: Path, permitted: tuple[x509.GeneralName, ...], at: datetime
) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    """The one that was made before, unless it has ended or may not vouch for today's names and addresses."""
    cert_file, key_file = folder / "authority.crt", folder / "authority.key"
    if cert_file.exists() and key_file.exists():
        cert = x509.load_pem_x509_certificate(cert_file.read_bytes())
        key = serialization.load_pem_private_key(key_file.read_bytes(), None)
        if isinstance(key, ec.EllipticCurvePrivateKey) and cert.not_valid_after_utc > at + timedelta(days=RENEW_DAYS):
            may = cert.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
            if set(permitted) <= set(may):
                return cert, key
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Gudgeon bench {permitted[0].value} {at:%Y-%m-%d}")])
    cert = (
        _begun(name, name, key.public_key(), at, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(x509.NameConstraints(list(permitted), None), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _write(key_file, _pem(key), 0o600)
    _write(cert_file, cert.public_bytes(serialization.Encoding.PEM), 0o644)
    return cert, key


def _issue(
    kept: Certificate,
    authority: x509.Certificate,
    signer: ec.EllipticCurvePrivateKey,
    names: tuple[str, ...],
    addresses: tuple[str, ...],
    at: datetime,
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, names[0])])
    cert = (
        _begun(name, authority.subject, key.public_key(), at, SERVER_DAYS)
        .add_extension(x509.SubjectAlternativeName(list(_alternatives(names, addresses))), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False)
        .sign(signer, hashes.SHA256())
    )
    _write(kept.key, _pem(key), 0o600)
    both = cert.public_bytes(serialization.Encoding.PEM) + authority.public_bytes(serialization.Encoding.PEM)
    _write(kept.cert, both, 0o644)


def _begun(
    subject: x509.Name, issuer: x509.Name, public: ec.EllipticCurvePublicKey, at: datetime, days: int
) -> x509.CertificateBuilder:
    """A day early: the tablet's clock may be behind."""
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(at - timedelta(days=1))
        .not_valid_after(at + timedelta(days=days))
    )


def _serves(
    kept: Certificate, authority: x509.Certificate, names: tuple[str, ...], addresses: tuple[str, ...], at: datetime
) -> bool:
    """Whether the certificate that lies there is of this authority, for all of these, and lasts a while."""
    if not (kept.cert.exists() and kept.key.exists()):
        return False
    cert = x509.load_pem_x509_certificate(kept.cert.read_bytes())
    try:
        cert.verify_directly_issued_by(authority)
    except Exception:  # whatever is wrong with it, another one is made
        return False
    there = set(cert.extensions.get_extension_for_class(x509.SubjectAlternativeName).value)
    return set(_alternatives(names, addresses)) <= there and cert.not_valid_after_utc > at + timedelta(days=RENEW_DAYS)


def _alternatives(names: tuple[str, ...], addresses: tuple[str, ...]) -> tuple[x509.GeneralName, ...]:
    local = ("127.0.0.1", *addresses)
    return (*map(x509.DNSName, names), *(x509.IPAddress(ipaddress.ip_address(a)) for a in dict.fromkeys(local)))


def _permitted(names: tuple[str, ...], addresses: tuple[str, ...]) -> tuple[x509.GeneralName, ...]:
    """All private networks; of the others only the very addresses that this computer has."""
    public = (ipaddress.ip_network(a) for a in addresses if not is_private(a))
    return (*map(x509.DNSName, names), *map(x509.IPAddress, (*PRIVATE, *public)))


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(digital_signature=not signs, key_cert_sign=signs, crl_sign=signs, content_commitment=False,
                         key_encipherment=False, data_encipherment=False, key_agreement=False, encipher_only=False,
                         decipher_only=False)  # fmt: skip


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _public(key: object) -> bytes:
    return key.public_bytes(serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo)  # type: ignore[attr-defined,no-any-return]


def _write(file: Path, content: bytes, mode: int) -> None:
    """Whole or not at all, and a key readable by nobody else from its first byte."""
    beside = file.with_name(file.name + ".new")
    beside.unlink(missing_ok=True)
    with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as writer:
        writer.write(content)
    beside.replace(file)
