"""A workshop of the test's own."""

from pathlib import Path

import pytest
from argon2 import PasswordHasher

from api.people import passwords
from tests.security.visitor import Workshop


@pytest.fixture(autouse=True)
def quick_hashes(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes as cheap as Argon2 allows."""
    quick = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    monkeypatch.setattr(passwords, "_hasher", quick)
    monkeypatch.setattr(passwords, "_nobody", quick.hash("nobody has this password"))


@pytest.fixture
def pwa(tmp_path: Path) -> Path:
    """A stand-in for the phone's files."""
    folder = tmp_path / "pwa"
    folder.mkdir()
    (folder / "index.html").write_text("<!doctype html><title>shell</title>")
    return folder


@pytest.fixture
def workshop(tmp_path: Path, pwa: Path) -> Workshop:
    """Set up, with an owner, a technician and somebody in the office."""
    return Workshop(tmp_path / "data", pwa)


@pytest.fixture
def new_workshop(tmp_path: Path, pwa: Path) -> Workshop:
    """Just started for the first time."""
    return Workshop(tmp_path / "new", pwa, is_set_up=False)
