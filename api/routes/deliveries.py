"""`/api/jobs/<id>/deliveries`: what became of the e-mails that were asked for in a job."""

from typing import Any

from flask import Blueprint

from api.context import connection
from api.routes.jobs import find
from api.store import outbox

blueprint = Blueprint("deliveries", __name__)


@blueprint.get("/api/jobs/<job_id>/deliveries")
def of_job(job_id: str) -> dict[str, Any]:
    """Each e-mail by its wish's id: `queued`, `sent`, `failed` or `bounced`, and why."""
    letters = outbox.of_job(connection(), find(job_id).id)
    return {
        "deliveries": [
            {"id": one.id, "state": one.state, "says": one.says, "at": one.changed_at} for one in letters
        ]
    }
