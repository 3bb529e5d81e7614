"""A log of a road run at the workshop: its blob counts for the receipt, its rows for the verdict."""

import hashlib
import json
from typing import Any

from flask.testing import FlaskClient

import calc
from api.job import blob_names, photo_names
from tests.api.phone import CHANGE, Phone, new_id, operation
from tests.calc.logs.test_dialects import ALL, rendered
from tests.calc.logs.test_of_job import accepted

LOG = rendered(ALL[0])
NAME = hashlib.sha256(LOG.data).hexdigest()


def keep_run(client: FlaskClient) -> tuple[str, dict[str, Any]]:
    """A job with a run that names its log; returns its id and the log's own run."""
    run = calc.read_log(LOG.data, barometric_kpa_abs=100.0)
    job = new_id()
    value = {"phase": "before_repair", "log": {"sha256": NAME, "columns": accepted(run)}, "rank": "a"}
    answers = Phone(client).sync(
        operation(job, "/site/barometric_kpa_abs", 100.0), operation(job, "/tests/road/r1", value, do="add")
    )
    assert answers == ["applied", "applied"]
    return job, run


def verdict(client: FlaskClient, job: str) -> dict[str, dict[str, Any]]:
    found = client.get(f"/api/jobs/{job}/verdict").json
    return {finding["check"]: finding for finding in found["findings"]}


def test_the_rows_are_judged_once_the_blob_is_here(client: FlaskClient) -> None:
    job, run = keep_run(client)
    assert verdict(client, job)["road_tracking"]["outcome"] == "not_examined"
    assert client.put(f"/api/blobs/{NAME}", data=LOG.data, headers=CHANGE).status_code == 201
    document = {"format": "job/1", "id": "j", "site": {"barometric_kpa_abs": 100.0}}
    whole = calc.judge({**document, "tests": {"road": [{"channels": run["channels"]}]}})
    expected = next(finding for finding in whole["findings"] if finding["check"] == "road_tracking")
    assert expected["value"] is not None
    assert verdict(client, job)["road_tracking"]["figure"] == expected["figure"]


def test_the_job_holds_the_name_and_never_the_rows(client: FlaskClient) -> None:
    job, _ = keep_run(client)
    client.put(f"/api/blobs/{NAME}", data=LOG.data, headers=CHANGE)
    text = client.get(f"/api/jobs/{job}").text
    assert NAME in text
    assert "channels" not in text
    document = json.loads(text)
    assert (blob_names(document), photo_names(document)) == ([NAME], [])


def test_the_receipt_counts_the_log(client: FlaskClient) -> None:
    job, _ = keep_run(client)
    assert client.get(f"/api/jobs/{job}/receipt").json["blobs"] == 0
    client.put(f"/api/blobs/{NAME}", data=LOG.data, headers=CHANGE)
    assert client.get(f"/api/jobs/{job}/receipt").json["blobs"] == 1


def test_the_report_is_drawn_from_the_log_too(client: FlaskClient) -> None:
    job, _ = keep_run(client)
    client.put(f"/api/blobs/{NAME}", data=LOG.data, headers=CHANGE)
    assert client.get(f"/api/jobs/{job}/report.pdf?form=technical").data.startswith(b"%PDF")
