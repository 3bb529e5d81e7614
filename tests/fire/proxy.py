"""A bad line: a TCP proxy of our own on loopback that cuts, slows, stalls and resets."""

import contextlib
import socket
import struct
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

LOOPBACK = "127.0.0.1"
PIECE = 4096


@dataclass(frozen=True)
class Line:
    """How one connection behaves: cut after so many bytes to or from the server; bytes a second; a stall."""

    cut_up: int | None = None
    cut_down: int | None = None
    bytes_a_second: float | None = None
    stall_seconds: float = 0.0


GOOD = Line()


class Proxy:
    """Connections go through to `port`; `line(number)` says how each behaves."""

    def __init__(self, port: int, line: Callable[[int], Line] = lambda _: GOOD) -> None:
        self.target = port
        self.line = line
        self.connections = 0
        self.cuts = 0
        self.bytes_up = 0
        self._lock = threading.Lock()
        self._standing: list[socket.socket] = []
        self._listener = socket.create_server((LOOPBACK, 0), backlog=64)
        self.port = self._listener.getsockname()[1]
        threading.Thread(target=self._accept, daemon=True).start()

    @property
    def url(self) -> str:
        return f"http://{LOOPBACK}:{self.port}"

    def drop_all(self) -> None:
        """Reset what stands open, so that every connection from here on is a new one."""
        with self._lock:
            standing, self._standing = self._standing, []
        for end in standing:
            reset(end)

    def close(self) -> None:
        with contextlib.suppress(OSError):
            self._listener.shutdown(socket.SHUT_RDWR)
        self._listener.close()

    def _accept(self) -> None:
        while True:
            try:
                near, _ = self._listener.accept()
            except OSError:
                return
            with self._lock:
                number = self.connections
                self.connections += 1
            threading.Thread(target=self._serve, args=(near, self.line(number)), daemon=True).start()

    def _serve(self, near: socket.socket, line: Line) -> None:
        try:
            far = socket.create_connection((LOOPBACK, self.target), timeout=30)
        except OSError:
            reset(near)
            return
        with self._lock:
            self._standing += [near, far]
        near.settimeout(120)
        far.settimeout(120)
        if line.stall_seconds:
            time.sleep(line.stall_seconds)
        down = threading.Thread(
            target=self._pump, args=(far, near, line.cut_down, line.bytes_a_second, False), daemon=True
        )
        down.start()
        self._pump(near, far, line.cut_up, line.bytes_a_second, True)
        down.join()
        near.close()
        far.close()

    def _pump(
        self, source: socket.socket, target: socket.socket, cut: int | None, rate: float | None, up: bool
    ) -> None:
        passed = 0
        try:
            while True:
                room = PIECE if cut is None else min(PIECE, cut - passed)
                if room <= 0:
                    self._cut(source, target)
                    return
                piece = source.recv(room)
                if not piece:
                    break
                passed += len(piece)
                if up:
                    with self._lock:
                        self.bytes_up += len(piece)
                if rate:
                    time.sleep(len(piece) / rate)
                target.sendall(piece)
        except OSError:
            pass
        with contextlib.suppress(OSError):
            target.shutdown(socket.SHUT_WR)

    def _cut(self, *ends: socket.socket) -> None:
        with self._lock:
            self.cuts += 1
        for end in ends:
            reset(end)


def reset(end: socket.socket) -> None:
    """Ends a connection at once, for both directions (RST, where the system sends one)."""
    with contextlib.suppress(OSError):
        end.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
    with contextlib.suppress(OSError):
        end.shutdown(socket.SHUT_RDWR)
    end.close()


@contextmanager
def proxied(port: int, line: Callable[[int], Line] = lambda _: GOOD) -> Iterator[Proxy]:
    proxy = Proxy(port, line)
    try:
        yield proxy
    finally:
        proxy.close()
