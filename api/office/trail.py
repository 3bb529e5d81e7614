"""The audit trail, as the owner reads it."""

from flask import render_template, request

from api.context import connection
from api.office.pages import Answer, blueprint
from api.people.language import retell
from api.store import audit

office_trail = blueprint("office_trail")


@office_trail.get("/trail")
def trail() -> Answer:
    """Who did what, the latest first, a hundred at a time."""
    before = request.args.get("before", type=int)
    entries = audit.latest(connection(), before if before and 0 < before < 2**53 else None)
    older = entries[-1].number if len(entries) == audit.PAGE else None
    return render_template("office/trail.html", entries=entries, older=older, retell=retell)
