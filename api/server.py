"""The server as a process on this machine's own address."""

import sys
from pathlib import Path

from waitress.server import create_server  # type: ignore[import-untyped]

from api.app import create_app

LOOPBACK = "127.0.0.1"
THREADS = 8
LARGEST_BODY = 17 * 1024 * 1024  # a little over the largest photo, which its own route limits


def serve(data_dir: Path | str, port: int = 8000, demo: bool = True) -> None:
    """Serve the workshop in `data_dir` on loopback until interrupted; port 0 takes a free one."""
    app = create_app(data_dir)
    server = create_server(
        app, host=LOOPBACK, port=port, threads=THREADS, ident=None, max_request_body_size=LARGEST_BODY
    )
    sys.stdout.write(f"Teepiece is at http://{LOOPBACK}:{server.effective_port} (data in {data_dir})\n")
    sys.stdout.flush()
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
