"""The parent of the servers in `workshop.py`: reads wishes from standard input, forks a server for each."""

import json
import os
import signal
import sys
import threading
import time
from contextlib import ExitStack, closing
from pathlib import Path
from typing import Any

from waitress.server import create_server

from api.app import create_app
from api.context import PROJECT
from api.server import LARGEST_BODY, PIECE, THREADS
from api.store import database
from tests.fire import faults


def main() -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # children that ended leave nothing behind
    for line in sys.stdin:
        print(json.dumps(born(json.loads(line))), flush=True)


def born(wish: dict[str, Any]) -> dict[str, Any]:
    reading, writing = os.pipe()
    parent, pid = os.getpid(), os.fork()
    if pid == 0:
        os.close(reading)
        child(wish, writing, parent)
    os.close(writing)
    with os.fdopen(reading) as answer:
        told = answer.readline()
    return {"pid": pid, "port": int(told)} if told.strip().isdigit() else {"pid": pid, "error": told}


def end_with(parent: int) -> None:
    """No server outlives the run that wanted it."""
    while os.getppid() == parent:
        time.sleep(0.5)
    os._exit(1)


def child(wish: dict[str, Any], writing: int, parent: int) -> None:
    """Serve until killed; the fault is armed once the server is up."""
    try:
        os.setsid()
        threading.Thread(target=end_with, args=(parent,), daemon=True).start()
        app = create_app(wish["data"], pwa=Path(wish["pwa"]) if wish["pwa"] else PROJECT / "pwa")
        server = create_server(
            app,
            host="127.0.0.1",
            port=wish["port"],
            threads=THREADS,
            ident=None,
            max_request_body_size=LARGEST_BODY,
            recv_bytes=PIECE,
        )
        with ExitStack() as armed:
            arm(armed, wish["fault"])
            armed.enter_context(
                closing(database.connect(Path(wish["data"]) / "workshop.sqlite3"))
            )  # as `serve` has
            os.write(writing, f"{server.effective_port}\n".encode())
            os.close(writing)
            server.run()
    except BaseException as error:  # noqa: BLE001  (told to whoever asked; the child ends here in any case)
        os.write(writing, f"{error!r}\n".encode())
    finally:
        os._exit(1)


def arm(armed: ExitStack, fault: dict[str, Any]) -> None:
    if not fault:
        return
    countdown = faults.Countdown(fault["at"])
    kinds = {"statement": faults.counted_statements, "file": faults.counted_files}
    armed.enter_context(kinds[fault["kind"]](countdown))


if __name__ == "__main__":
    main()
