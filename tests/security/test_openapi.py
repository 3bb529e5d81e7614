"""The description against the server's map, and schemathesis asking all that it allows, and more."""

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis import GenerationMode
from schemathesis.config import SchemathesisConfig

from api import demo
from api.app import create_app
from tests.security.visitor import Workshop

DESCRIPTION: dict[str, Any] = json.loads(
    Path(__file__).resolve().parents[2].joinpath("api/routes/openapi.json").read_text()
)
METHODS = {"get", "put", "post", "delete", "patch"}

# Who gets in is settled by test_access.py; here somebody is signed in.
WITHOUT_SIGN_IN = DESCRIPTION | {"security": []}
# Of the form described, and still nothing that can be taken: bytes of another hash (422), 999 GB (413).
FORM_IS_RIGHT = ["2xx", "404", "409", "413", "422"]
REFUSED = ["400", "401", "403", "404", "405", "409", "413", "415", "422"]
CHECKS = {
    "positive_data_acceptance": {"expected-statuses": FORM_IS_RIGHT},
    "negative_data_rejection": {"expected-statuses": REFUSED},
}
CONFIG = SchemathesisConfig.from_dict({"checks": CHECKS})

schemathesis.serializer.alias("application/zip", "application/octet-stream")


def described() -> set[tuple[str, str]]:
    paths = DESCRIPTION["paths"].items()
    return {(method.upper(), path) for path, item in paths for method in item if method in METHODS}


def served(data: Path) -> set[tuple[str, str]]:
    rules = [
        rule for rule in create_app(data).url_map.iter_rules() if rule.rule.startswith(("/api/", "/health"))
    ]
    return {
        (method, re.sub(r"<(?:[^<>:]+:)?([^<>]+)>", r"{\1}", rule.rule))
        for rule in rules
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }


def test_the_description_names_every_address_of_the_api_and_no_other(tmp_path: Path) -> None:
    assert described() == served(tmp_path)


def aim_at_the_demo_job(case: schemathesis.Case) -> None:
    """What is allowed is asked of a job that is there; its PDF alone takes too long for so many questions."""
    is_allowed = case.meta is None or case.meta.generation.mode is GenerationMode.POSITIVE
    if is_allowed and "job_id" in (case.path_parameters or {}) and not case.path.endswith(".pdf"):
        case.path_parameters["job_id"] = demo.document()["id"]


def ask_everything(workshop: Workshop, path: str, method: str, most: int) -> int:
    """Requests that the description allows and requests that it forbids, each answer held against it.

    A paired phone of the owner's asks: it is let in everywhere. The number of requests is returned.
    """
    phone = workshop.phone("owner")
    phone.sync(*demo.operations())
    origin = {"Origin": "http://localhost"}  # the one host that schemathesis sets cookies for
    schema = schemathesis.openapi.from_dict(WITHOUT_SIGN_IN, config=CONFIG)
    schema.app = workshop.app
    operation = schema[path][method]
    statuses: Counter[int] = Counter()
    described = DESCRIPTION["paths"][path][method.lower()]
    has_input = "parameters" in described or "requestBody" in described
    for mode in GenerationMode if has_input else [GenerationMode.POSITIVE]:

        @given(case=operation.as_strategy(generation_mode=mode))
        @settings(
            max_examples=most,
            deadline=None,
            derandomize=True,
            database=None,
            suppress_health_check=list(HealthCheck),
            phases=[Phase.generate],
        )
        def ask(case: schemathesis.Case) -> None:
            aim_at_the_demo_job(case)
            answer = case.call(headers=origin, cookies=phone.cookies())
            statuses[answer.status_code] += 1
            case.validate_response(answer)

        ask()
    assert statuses.keys() - {401, 403}, "nobody was let in, so nothing was tried"
    return statuses.total()


@pytest.mark.parametrize(("method", "path"), sorted(described()))
def test_no_request_leaves_the_description(workshop: Workshop, method: str, path: str) -> None:
    ask_everything(workshop, path, method, most=10)
