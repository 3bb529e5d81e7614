"""A captive portal: what a phone meets on a hotel's Wi-Fi."""

import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager


class Portal(http.server.BaseHTTPRequestHandler):
    """A captive portal: every address gives its own page, with status 200."""

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(b"<h1>Welcome to the hotel</h1>")

    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def portal(port: int) -> Iterator[None]:
    server = http.server.ThreadingHTTPServer(("127.0.0.1", port), Portal)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
