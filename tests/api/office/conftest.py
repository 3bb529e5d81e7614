"""The office is visited in a workshop that was set up, with the demo's kind of job in it."""

import hashlib
import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.api.phone import new_id, operation
from tests.security.conftest import pwa, quick_hashes
from tests.security.visitor import Visitor, Workshop

__all__ = ["pwa", "quick_hashes"]


@pytest.fixture
def workshop(tmp_path: Path, pwa: Path) -> Workshop:
    return Workshop(tmp_path / "data", pwa)


@pytest.fixture
def owner(workshop: Workshop) -> Visitor:
    return workshop.signed_in("owner")


@pytest.fixture
def office(workshop: Workshop) -> Visitor:
    return workshop.signed_in("office")


@pytest.fixture
def bring(workshop: Workshop) -> Callable[..., str]:
    """A phone brings a job: places and their values; the job's id."""
    phone = workshop.phone()

    def job(places: dict[str, object], photo: bytes | None = None) -> str:
        job_id = new_id()
        made = [operation(job_id, path, value) for path, value in places.items()]
        if photo:
            name = hashlib.sha256(photo).hexdigest()
            phone.send("PUT", f"/api/blobs/{name}", data=photo)
            made.append(operation(job_id, f"/photos/{new_id()}", {"sha256": name}, do="add"))
        answers = phone.sync(*map(json.dumps, made)).json["answers"]
        assert {one["answer"] for one in answers} == {"applied"}, answers
        return job_id

    return job
