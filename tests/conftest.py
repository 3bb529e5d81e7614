"""What holds for every test: the network is this machine alone, and the browser is driven by one worker."""

import ipaddress
import socket
from collections.abc import Iterator
from typing import Any

import pytest

BROWSER_TESTS = "tests/browser/"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if item.nodeid.startswith(BROWSER_TESTS):
            item.add_marker(pytest.mark.xdist_group("browser"))


@pytest.fixture(scope="session", autouse=True)
def loopback_only() -> Iterator[None]:
    """A test that reaches for another machine fails at that line."""
    connect = socket.socket.connect

    def guarded(self: socket.socket, address: Any) -> None:
        if self.family in (socket.AF_INET, socket.AF_INET6) and not is_loopback(address[0]):
            raise AssertionError(f"a test reached for {address}")
        connect(self, address)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", guarded)
        yield


def is_loopback(host: str) -> bool:
    return host == "localhost" or ipaddress.ip_address(host).is_loopback
