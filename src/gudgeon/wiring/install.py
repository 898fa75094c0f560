"""The one page served without a certificate: it carries the certificate of the workshop's own authority, and nothing else."""

from __future__ import annotations

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

POLICY = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"


def install_page(authority: Path, host: str, port: int, bench: str, mark: str) -> str:
    """Serve it in the background until the process ends; the address. A port that is taken is passed by."""
    content = {
        "/": ("text/html; charset=utf-8", _page(bench, mark).encode()),
        "/bench.crt": ("application/x-x509-ca-cert", authority.read_bytes()),
        "/sheet.css": ("text/css; charset=utf-8", _style("sheet.css")),
        "/benches.css": ("text/css; charset=utf-8", _style("benches.css")),
    }

    class Handler(BaseHTTPRequestHandler):
        """GET of two addresses; whatever else is asked is not there."""

        timeout = 10
        server_version, sys_version = "bench", ""

        def do_GET(self) -> None:
            kind, body = content.get(self.path.partition("?")[0], ("", b""))
            self.send_response(200 if kind else 404)
            if kind:
                self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            self.send_header("Content-Security-Policy", POLICY)
            self.send_header("X-Content-Type-Options", "nosniff")
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, format: str, *args: object) -> None:
            """Say nothing."""

    server = _bound(Handler, port)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return f"http://{host}:{server.server_address[1]}/"


def _bound(handler: type[BaseHTTPRequestHandler], port: int) -> ThreadingHTTPServer:
    for tried in (*range(port, min(port + 20, 65536)), 0):
        try:
            return ThreadingHTTPServer(("0.0.0.0", tried), handler)
        except OSError:
            continue
    raise OSError("no port is free")  # port 0 is any free one, so this is never reached


def _style(name: str) -> bytes:
    from django.contrib.staticfiles.finders import find

    return Path(str(find(name))).read_bytes()


def _page(bench: str, mark: str) -> str:
    from django.template.loader import render_to_string
    from django.utils.translation import get_language

    facts = {"bench": bench, "mark": mark, "language": get_language() or "en"}
    return render_to_string("screens/benches/install.html", facts)
