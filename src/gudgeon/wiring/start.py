"""Starting the bench: folder, tables, a checked copy, the server, and a copy when it ends."""

from __future__ import annotations

import multiprocessing
import os
import signal
import socket
import threading
import time
import webbrowser
from collections.abc import Callable
from typing import TYPE_CHECKING

from gudgeon.problem import Refused, refuse
from gudgeon.wiring.bench import copies, open_database
from gudgeon.wiring.folder import data_folder, warning
from gudgeon.wiring.lan import Lan, on_network

if TYPE_CHECKING:
    from gudgeon.wiring.certificates import Certificate

LOOPBACK = ("127.0.0.1", "localhost", "::1")
#: So many ports above the one asked for are tried.
TRIED = 50


def start(
    host: str = "127.0.0.1",
    port: int = 8000,
    *,
    open_browser: bool = False,
    lan: Lan | None = None,
    say: Callable[[str], None] = print,
) -> None:
    """Serve until interrupted (SIGINT or SIGTERM): on this computer alone, or on its network behind pairing and login."""
    if lan is None and host not in LOOPBACK:
        raise refuse("host", "On a network the bench is served with pairing only.", "Say --lan, or serve on 127.0.0.1.")
    open_database()
    if unsafe := warning(data_folder()):
        say(unsafe)
    free = free_port(host, port)
    if free != port:
        say(f"Port {port} is taken, so the bench is at {free}.")
    served = on_network(lan, free, say) if lan else None
    _copy(say)
    _let_go()
    address = served.address if served else f"http://{f'[{host}]' if ':' in host else host}:{free}/"
    say(f"The bench is at {address} (Ctrl+C ends it).")
    if open_browser:
        shown = served.pair_here if served else address
        threading.Thread(target=_open, args=("127.0.0.1" if lan else host, free, shown), daemon=True).start()
    try:
        _serve(host, free, served.certificate if served else None)
    finally:
        _copy(say)


def free_port(host: str, port: int) -> int:
    """The port asked for, or the next one that nobody listens on."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    for tried in range(port, min(port + TRIED, 65536)):
        with socket.socket(family, socket.SOCK_STREAM) as probe:
            if os.name == "posix":
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, tried))
            except (OSError, OverflowError):
                continue
            return int(probe.getsockname()[1])
    raise refuse("port", "No port from {first} on is free.", "Name another, from 1024 to 65535.", first=port)


def _serve(host: str, port: int, certificate: Certificate | None) -> None:
    """One process, so that one lock orders all writers; eight threads, so that readers do not queue behind a slow one."""
    from granian import Granian
    from granian.constants import Interfaces
    from granian.log import LogLevels

    multiprocessing.set_start_method("spawn", force=True)  # a fork would share what this process had open
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "gudgeon.wiring.settings")
    Granian(
        "gudgeon",
        address=host,
        port=port,
        interface=Interfaces.WSGI,
        workers=1,
        blocking_threads=8,
        blocking_threads_idle_timeout=600,
        workers_kill_timeout=10,
        websockets=False,
        log_level=LogLevels.error,
        ssl_cert=certificate.cert if certificate else None,
        ssl_key=certificate.key if certificate else None,
    ).serve(target_loader=_in_worker, wrap_loader=False)


def _in_worker() -> Callable[..., object]:
    """What the worker does first; gives what it serves."""
    if hasattr(os, "setpgrp"):
        os.setpgrp()  # Ctrl+C reaches the first process alone, which ends this one: two signals at once would block it
    threading.Thread(target=_end_with_parent, daemon=True).start()
    from gudgeon.wiring.wsgi import application

    return application


def _end_with_parent() -> None:
    """A first process that was killed must not leave a bench that nobody can end."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os.kill(os.getpid(), signal.SIGTERM)


def _copy(say: Callable[[str], None]) -> None:
    """A copy that fails is said, loudly, and does not keep the bench shut."""
    try:
        made = copies().make()
        say(f"Checked copy {made.name} made.")
    except Refused as refused:
        for problem in refused.problems:
            say(f"NO CHECKED COPY: {problem}")


def _let_go() -> None:
    """This process only waits from here on; the worker opens the database anew."""
    from django.db import connections

    connections.close_all()


def _open(host: str, port: int, address: str) -> None:
    """Show the bench when it answers."""
    for _ in range(200):
        with socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET, socket.SOCK_STREAM) as probe:
            probe.settimeout(1)
            if probe.connect_ex((host, port)) == 0:
                webbrowser.open(address)
                return
        time.sleep(0.1)
