"""Under which names and addresses this computer is found on its own network."""

from __future__ import annotations

import ipaddress
import socket

#: Networks that are nobody's on the internet (RFC 1918, RFC 3927, RFC 6598, RFC 4193, RFC 4291), and this computer itself.
PRIVATE = tuple(
    ipaddress.ip_network(net)
    for net in (
        *("127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10"),
        *("::1/128", "fc00::/7", "fe80::/10"),
    )
)


def own_names() -> tuple[str, ...]:
    """The host name, with and without the ending of a small network, and this computer's own name for itself."""
    host = socket.gethostname().split(".")[0].lower() or "bench"
    return (f"{host}.local", host, "localhost")


def own_addresses() -> tuple[str, ...]:
    """IPv4 addresses that a tablet on the same network could reach, the likeliest first."""
    found = [_towards("192.0.2.1"), *_listed()]
    usable = [a for a in dict.fromkeys(found) if a and not ipaddress.ip_address(a).is_loopback]
    return tuple(sorted(usable, key=lambda a: not is_private(a)))


def is_private(address: str) -> bool:
    """Whether an address lies in a network that is nobody's on the internet."""
    return any(ipaddress.ip_address(address) in net for net in PRIVATE)


def _towards(address: str) -> str:
    """Which own address the system would use to go somewhere; nothing is sent (192.0.2.0/24 is for documentation, RFC 5737)."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect((address, 9))
            return str(probe.getsockname()[0])
        except OSError:
            return ""


def _listed() -> list[str]:
    try:
        return [str(info[4][0]) for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    except OSError:
        return []
