"""Servers of our own: each a real process on loopback, quickly started, ended by SIGKILL to its own pid.

One parent process imports everything once and forks a child for each server.
"""

import contextlib
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
LOOPBACK = "127.0.0.1"


class Nursery:
    """The parent of all servers of one run."""

    def __init__(self) -> None:
        command = [sys.executable, "-m", "tests.fire.nursery"]
        self.process = subprocess.Popen(
            command,
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )

    def ask(self, wish: dict[str, Any]) -> dict[str, Any]:
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps(wish) + "\n")
        self.process.stdin.flush()
        answer: dict[str, Any] = json.loads(self.process.stdout.readline())
        return answer

    def close(self) -> None:
        """End the parent; its children were ended one by one."""
        assert self.process.stdin is not None
        self.process.stdin.close()
        self.process.wait(timeout=30)
        assert self.process.stdout is not None
        self.process.stdout.close()

    def __enter__(self) -> "Nursery":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


class Workshop:
    """One workshop's server; it keeps its port and its data when it is started again.

    `fault` is what `nursery.py` arms: `{"kind": "statement" | "file", "at": N}` ends the process there.
    """

    def __init__(self, nursery: Nursery, data: Path, pwa: Path | None = None) -> None:
        self.nursery = nursery
        self.data = data
        self.pwa = pwa
        self.port = 0
        self.pid = 0

    @property
    def url(self) -> str:
        return f"http://{LOOPBACK}:{self.port}"

    def start(self, **fault: Any) -> "Workshop":
        wish = {"data": str(self.data), "port": self.port, "pwa": str(self.pwa or ""), "fault": fault}
        answer = self.nursery.ask(wish)
        if "port" not in answer:
            raise RuntimeError(f"the server did not start: {answer}")
        self.pid, self.port = answer["pid"], answer["port"]
        return self

    def kill(self) -> None:
        """SIGKILL, and wait until it is gone."""
        if not self.pid:
            return
        with contextlib.suppress(ProcessLookupError):
            os.kill(self.pid, signal.SIGKILL)
        self.wait_until_gone()

    def wait_until_gone(self) -> None:
        for _ in range(2000):
            try:
                os.kill(self.pid, 0)
            except ProcessLookupError:
                self.pid = 0
                return
            time.sleep(0.005)
        raise RuntimeError(f"process {self.pid} does not end")

    def __enter__(self) -> "Workshop":
        return self if self.pid else self.start()

    def __exit__(self, *_: object) -> None:
        self.kill()
